// Package live is the page that halfturn live serves: an http.Handler, its
// templates, style and script.
//
// The page shows and sends, and neither computes nor draws. It posts the driveline
// file and what stands in its fields as typed, and gets back the completed file, the
// answer and tables as HTML, and figures as fragments of SVG, all made by what makes
// them for the commands. The server keeps nothing between two requests.
//
// By the names of the files:
//
//   - serving: handler (the addresses), guard (who may ask), serve (the listener)
//   - an answer: request, entered (what was typed), answer, figures with fragment and
//     track (where a mark runs), plans, turning, download, command
//   - the page: page and page.html.tmpl, parts.html.tmpl, inputs (of the bench), steps (of
//     measuring), lessons (of the class), live.css and js
//
// In the script, ask.js is the only place that asks the server.
package live

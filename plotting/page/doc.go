// Package page lays figures out and draws them on the canvases of gonum.org/v1/plot.
//
// A Figure is one page of a stated physical Size: a title that asks the question, rows
// of panels, a legend off the data and a caption that says what to see. A Panel is a
// pair of axes with layers on it: Curve, Rule, Mark, Field (a map in colour bands),
// Drawing (anything else), or any plot.Plotter. Encode turns a figure into PNG, SVG or
// PDF bytes, the same data always giving the same bytes; Save also writes them, whole
// or not at all; Figure.Draw draws it on a canvas of the caller. Deck makes one PDF
// document of several, Book one with facing pages.
//
// # Where things are
//
// By the names of the files, each of which holds one concept:
//
//   - a page: figure, size, panel, axis with interval, scale and tick, legend, text,
//     passage, width, block, palette; laid out by fit, margins, layout, place, roomier and
//     grow, drawn by axes; as a file by encode, svg, gif, film, write, frames; in PNG with
//     outline, in PDF by deck, document, objects, pdf, cubic, embed, subset
//   - letters: typeset, leftward for names that run from right to left, scripts for those
//     that the font lacks
//   - what stands on a panel: layer, curve with thin, rule, mark, field with contour and
//     colourbar, drawing with sketch, tag and column; what keeps texts apart: clear, spread
//
// # Layout
//
// Every panel says how much room its labels need beside, above and below the data area.
// Panels in one column share the widest side room, panels in one row the tallest, so
// data areas line up exactly; titles, legends, labels of curves and colour bars stand in
// that room, never on the data and never outside the page. All sizes follow from
// Size.Text, so a figure keeps its looks from a slide to a printed page.
//
// # What the drawing library does and does not
//
// Canvases, fonts, colour maps, ticks and layers are those of gonum.org/v1/plot. Axes
// and layout are our own, because its plot.Plot labels an axis from 0.96 to 1.04 with
// "0.96, 1, 1", blows rounding noise up to full scale, never returns from NaN limits,
// lays the legend over the curves and cannot align panels of unequal kind. The canvases
// of SVG and PDF are our own too: see svgCanvas and pdfCanvas. That of PNG draws text by
// outlineText, which sets small figures and leaves no gap for what the font lacks.
//
// # Units
//
// Lengths on the page are vg.Length, in points of 1/72 inch, y upwards. Widths and dashes
// of pens are in points at a text size of 10 points and scale with the text.
package page

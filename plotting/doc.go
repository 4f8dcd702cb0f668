// Package plotting makes the figures of a driveline from results, never from files or
// flags. Each figure is a function that takes what it draws and returns a page.Figure,
// which package page lays out and encodes; what stands in space is drawn by package
// scene.
//
// The figures by their files:
//
//   - of one analysed driveline, a Case: speed, lead, acceleration (with what they share
//     in turning), vectors (vectordiagram, bow), orders, phasing, theory, views
//     (viewdrawing, viewpicture), yokes (rowgrid), animation
//   - of other results: allowed (roles, allowedjoints), residual, loads (forces), sweep,
//     travel
//   - of several drivelines: compare, correction
//   - sets: sheet, lecture (lessons, loadlesson), exercises (exercisesone, exercisessum,
//     exercisesarrows, exercisesload)
//   - of how to measure: measure
//
// What they share: case, names, digits.
package plotting

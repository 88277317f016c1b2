// Package drawing makes pictures of numbers: heights side by side, shares of
// cost, ranges, a price over height, weeks. A builder (LineUp, Shares, RangeBar,
// Curve, Timeline, Drivers, Bars) takes plain values and gives a Scene of paths
// and text. A scene knows its colours by role and is drawn on any Canvas:
// Raster is the one of the screen, and a document brings its own, so that both
// show the same thing.
//
// Lengths are points of 1/72 inch from the top left, x to the right and y down.
// Text is measured by the advances of the embedded fonts, without kerning, as a
// PDF sets it.
//
// A builder never fails: what is not a number, or has no place in the picture,
// is left out or held at the nearest value that has.
package drawing

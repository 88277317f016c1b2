// Package proposal makes the papers of a quote: the proposal that goes to a
// client, the cost sheet that stays in the shop, and the cost sheet as a
// spreadsheet.
//
// A paper is set in three steps. Its words come from templates/, by language
// (wording.go), and its figures from the estimate (facts.go, parts.go). Text,
// tables and pictures become strips, bands of a page that are never cut
// (text.go, table.go), and strips become pages (page.go). A page is a
// drawing.Scene, so that a window shows the very page that is printed; writing
// it as PDF (pdf.go, canvas.go) is the only place that knows the PDF library.
//
// The same paper gives the same bytes: its date is that of the document, and
// nothing here asks the clock.
package proposal

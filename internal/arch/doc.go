// Package arch holds the plan of the code: which package may import which
// (the table rooms), which package may use which library (the table
// libraries), and what lies at the top of the repository. Its tests read the
// source and fail on anything that is not in the plan. Nothing imports it.
//
// The work goes one way: sizes and scans into a form, form and shop book into
// an estimate, the estimate into a quote, the quote into documents. To let
// that change, change the table, and say why in DEVELOPERS.md.
package arch

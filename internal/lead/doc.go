// Package lead says when a commission will stand: which tasks its estimate
// makes, who does them and where, what waits for what, and on which days of the
// shop's calendar each falls when nobody does two things at once.
//
// It is pure: dates come in from outside, and the same commission, shop book and
// start give the same schedule.
package lead

// Package ui is the window: one file a screen, put together from the widgets of
// kit. It knows quotes, prices and the shop book only through package desk.
//
// Everything here runs on the window's own goroutine, but for what is handed to
// Work: reading and writing the store and the papers. Those jobs give back what
// is to be shown, and Work applies that on the window's goroutine again.
package ui

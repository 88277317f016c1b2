package main

import (
	"meltwright/internal/desk"
	"meltwright/internal/proposal"
)

// papers makes the documents, with the user's own wording where there is some.
var papers desk.Papers = proposal.Maker{Wording: proposal.WordingIn(ownWording())}

// ownWording is the folder of the user's own wording; empty where the computer
// has no place for it.
func ownWording() string {
	folder, err := desk.WordingPath()
	if err != nil {
		return ""
	}
	return folder
}

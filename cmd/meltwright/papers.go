package main

import (
	"meltwright/internal/desk"
	"meltwright/internal/proposal"
)

// papers makes the documents.
var papers desk.Papers = proposal.Maker{}

// Package parcel packs one quote, with its scan and its pictures, into one file
// that an artist and a foundry can send each other, and opens such a file.
//
// A parcel is a zip archive (PKWARE APPNOTE 6.3) of files that lie side by side:
//
//	meltwright      what this is and in which version: "parcel 1". Always first.
//	commission.json what is to be made, every input as it was typed
//	words.json      what was written for the papers; may be missing
//	book.json       the sender's shop book; only if the sender chose to
//	picture-1 …     PNG or JPEG
//	scan-1 …        a scan file, of any sort
//	manifest.json   who sends it, what was left out, and of each part its kind,
//	                the name its file had, its size and its SHA-256, and of a
//	                picture its caption and whether it is the cover
//
// Parts that the manifest does not list, and kinds of part that this version does
// not know, are passed over with a note; a parcel of a newer version is refused.
//
// A file that comes from elsewhere may be damaged or meant to do harm, so nothing
// in it is believed: sizes are counted while a part is read, no part may lie in a
// folder or inflate beyond reason, and JSON is looked through before it is read.
package parcel

// Ending is how the names of parcels end.
const Ending = ".meltparcel"

// Version is the version of the parcels that this program writes, and the newest
// that it reads.
const Version = 1

// The entries of the archive, and the mark in the first.
const (
	markEntry     = "meltwright"
	markWord      = "parcel "
	manifestEntry = "manifest.json"
)

// The most that a parcel may hold. Whoever writes one is held to the same.
const (
	mostEntries   = 250     // in the archive
	mostDirectory = 1 << 20 // bytes read to find what is in the archive
	mostManifest  = 1 << 20 // bytes of the manifest
	mostJSON      = 32 << 20
	mostPicture   = 64 << 20
	mostPoints    = 100e6 // of a picture, width × height
	mostScan      = 1 << 30
	mostInflated  = 200      // a picture or scan against its packed size
	alwaysLet     = 64 << 10 // inflated bytes that nobody minds

	mostDepth   = 24      // of JSON, one thing within another
	mostThings  = 50_000  // of JSON, objects
	mostValues  = 2 << 20 // of JSON, numbers and texts
	mostNumber  = 1e12
	mostDigits  = 40 // of a number as written
	mostPieces  = 500
	mostOptions = 100
	mostRows    = 5000    // of solids, of own lines, of a shop book's table
	mostText    = 100_000 // bytes of one text
	mostCaption = 500     // signs of a picture's caption
	mostLeftOut = 40      // sentences on what was left out
)

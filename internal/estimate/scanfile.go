package estimate

import (
	"meltwright/internal/fault"
	"meltwright/internal/mesh"
	"meltwright/internal/quantity"
)

// ScanFile names the scan of a piece by its file, with the answers that a scan
// file cannot give; what is left out is proposed.
type ScanFile struct {
	Path     string `json:"path"`
	Unit     string `json:"unit,omitempty"`      // "mm"
	Up       string `json:"up,omitempty"`        // "z", "-y"
	OpenFoot *bool  `json:"open_foot,omitempty"` // the piece stands on a rim: no metal under it
}

// Answer puts what is said in the place of what was proposed.
func (f ScanFile) Answer(how mesh.Stance) (mesh.Stance, error) {
	if f.Up != "" {
		up, err := mesh.ParseAxis(f.Up)
		if err != nil {
			return how, err
		}
		how.Up = up
	}
	if f.Unit != "" {
		u, ok := quantity.ParseUnit(f.Unit)
		if !ok || !u.SameSort(quantity.Metre) {
			return how, fault.Fault{Where: "scan.unit", Field: "Unit of the scan", Value: f.Unit, Problem: "is no unit of length", Remedy: "give mm, cm, m, in or ft"}
		}
		how.Unit = mesh.Unit{Symbol: u.Symbol, Metres: u.Size}
	}
	if f.OpenFoot != nil {
		how.OpenFoot = *f.OpenFoot
	}
	return how, nil
}

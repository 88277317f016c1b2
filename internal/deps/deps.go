//go:build deps

package deps

import (
	_ "fyne.io/fyne/v2/app"
	_ "fyne.io/fyne/v2/test"
	_ "fyne.io/fyne/v2/widget"
	_ "github.com/bojanz/currency"
	_ "github.com/jung-kurt/gofpdf"
	_ "github.com/rogpeppe/go-internal/testscript"
	_ "github.com/shopspring/decimal"
	_ "github.com/srwiley/rasterx"
	_ "github.com/stretchr/testify/assert"
	_ "github.com/stretchr/testify/require"
	_ "github.com/xuri/excelize/v2"
	_ "golang.org/x/image/draw"
	_ "golang.org/x/image/font/opentype"
	_ "golang.org/x/text/language"
	_ "gonum.org/v1/gonum/stat/distuv"
	_ "modernc.org/sqlite"
	_ "pgregory.net/rapid"
)

package proposal

import (
	"bytes"
	"fmt"
	"net/url"
	"path/filepath"
	"runtime"
	"runtime/metrics"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"meltwright/internal/quote"
)

// eightPages is a proposal of eight pages with three photographs.
func eightPages(b *testing.B, photograph []byte) quote.Paper {
	p := paperOf(b, waterfront())
	p.Quote.Words = map[string]string{
		"idea":     strings.Repeat("The lock keeper looks up the canal. Her dog has seen the boat first. ", 6),
		"sections": "idea, recommendation, work, pictures, options, included, rests, price, payments, terms, rights, cautions, signatures",
	}
	for i, name := range []string{quote.Cover, "basin.jpg", "clay.jpg"} {
		p.Pictures = append(p.Pictures, quote.Picture{Name: name, Data: photograph, Caption: fmt.Sprintf("Picture %d.", i+1)})
	}
	d, err := Maker{}.proposal(p)
	require.NoError(b, err)
	require.Equal(b, 8, len(d.pages)) // not Len, which would print every path of them
	return p
}

// asTaken is a photograph of twelve million pixels, as a camera takes it.
func asTaken(b *testing.B) []byte { return jpegOf(b, paint(4000, 3000)) }

// asKept is the same as it is worth keeping.
func asKept(b *testing.B) []byte {
	kept, err := Slim(quote.Picture{Name: quote.Cover, Data: asTaken(b)})
	require.NoError(b, err)
	return kept.Data
}

// BenchmarkEightPagesWithThreePhotographs tells, beside the time, how much more
// memory objects took at the most than before, rubbish and all.
func BenchmarkEightPagesWithThreePhotographs(b *testing.B) {
	for name, photograph := range map[string]func(*testing.B) []byte{"as-kept": asKept, "as-taken": asTaken} {
		b.Run(name, func(b *testing.B) {
			p := eightPages(b, photograph(b))
			runtime.GC()
			before := inObjects()
			var most atomic.Uint64
			stop := make(chan struct{})
			go watch(stop, &most)
			b.ReportAllocs()
			for b.Loop() {
				var out bytes.Buffer
				if err := (Maker{}).Proposal(&out, p); err != nil {
					b.Fatal(err)
				}
			}
			close(stop)
			b.ReportMetric(float64(most.Load()-min(most.Load(), before))/(1<<20), "MB-at-most")
		})
	}
}

// inObjects is how many bytes objects take, used or not yet swept up.
func inObjects() uint64 {
	sample := []metrics.Sample{{Name: "/memory/classes/heap/objects:bytes"}}
	metrics.Read(sample)
	return sample[0].Value.Uint64()
}

// watch keeps the most that objects take, until it is told to stop.
func watch(stop chan struct{}, most *atomic.Uint64) {
	tick := time.NewTicker(time.Millisecond)
	defer tick.Stop()
	for {
		select {
		case <-stop:
			return
		case <-tick.C:
			most.Store(max(most.Load(), inObjects()))
		}
	}
}

// asWorkbook is pages as LibreOffice can take them: a sheet a page, a row a line
// of words in its own size, and the pictures as the camera made them.
func asWorkbook(b *testing.B, p quote.Paper) []byte {
	pages, err := Maker{}.Pages(p)
	require.NoError(b, err)
	f := excelize.NewFile()
	defer f.Close()
	for i, page := range pages {
		name := "Page " + strconv.Itoa(i+1)
		_, err := f.NewSheet(name)
		require.NoError(b, err)
		for row, words := range page.Texts() {
			style, err := f.NewStyle(&excelize.Style{Font: &excelize.Font{Size: words.Size, Family: "Noto Sans"}})
			require.NoError(b, err)
			cell := "A" + strconv.Itoa(row+1)
			require.NoError(b, f.SetCellStr(name, cell, words.Words))
			require.NoError(b, f.SetCellStyle(name, cell, cell, style))
		}
		if i < len(p.Pictures) {
			pic := excelize.Picture{Extension: ".jpg", File: p.Pictures[i].Data, Format: &excelize.GraphicOptions{ScaleX: 0.15, ScaleY: 0.15}}
			require.NoError(b, f.AddPictureFromBytes(name, "C3", &pic))
		}
	}
	require.NoError(b, f.DeleteSheet("Sheet1"))
	var out bytes.Buffer
	_, err = f.WriteTo(&out)
	require.NoError(b, err)
	return out.Bytes()
}

// BenchmarkAgainstLibreOffice lets LibreOffice make a PDF of the same words and
// pictures, headless, and tells how many times as long it takes.
func BenchmarkAgainstLibreOffice(b *testing.B) {
	office := needTool(b, "soffice")
	p := eightPages(b, asKept(b))
	file := kept(b, "paper.xlsx", asWorkbook(b, p))
	dir := filepath.Dir(file)
	profile := (&url.URL{Scheme: "file", Path: filepath.Join(dir, "profile")}).String()
	convert := func() {
		told(b, office, "-env:UserInstallation="+profile, "--headless", "--convert-to", "pdf", "--outdir", dir, file)
		require.FileExists(b, filepath.Join(dir, "paper.pdf"))
	}
	convert() // makes its profile
	var ours, theirs time.Duration
	for b.Loop() {
		start := time.Now()
		convert()
		theirs += time.Since(start)
		const runs = 3 // the first finds the machine as LibreOffice left it
		start = time.Now()
		for range runs {
			var out bytes.Buffer
			require.NoError(b, Maker{}.Proposal(&out, p))
		}
		ours += time.Since(start) / runs
	}
	b.ReportMetric(float64(theirs)/float64(ours), "times-as-long")
}

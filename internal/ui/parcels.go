package ui

import (
	"context"
	"io"
	"os"
	"path/filepath"
	"strings"

	"meltwright/internal/desk"
	"meltwright/internal/fault"
	"meltwright/internal/parcel"
	"meltwright/internal/quote"
	"meltwright/internal/ui/kit"
)

// send asks what of the shop's own goes along, and where the quote goes as one
// file for somebody else.
func (q *quoteScreen) send() {
	withBook := kit.NewCheck("the shop book, with its rates", nil)
	withMargins := kit.NewCheck("the margins, and every rate and sum that was typed", nil)
	text := "The quote goes with its pictures, and with the scans whose files are kept with it, as one file that Meltwright opens on the other side. Your rates and margins stay here unless you tick them."
	q.w.ask(&kit.Ask{
		Title: "Send “" + titleOf(q.sheet.Commission()) + "”", Text: text, Body: kit.NewColumn(4, withBook, withMargins),
		Choices: []kit.Choice{
			{Text: "Not now", Safe: true},
			{Text: "Choose where …", Style: kit.Primary, Do: func() {
				q.whenKept("This was not sent", func() { q.sendTo(withBook.Checked, withMargins.Checked) })
			}},
		},
	})
}

func (q *quoteScreen) sendTo(withBook, withMargins bool) {
	send := q.sheet.Sending(withBook, withMargins)
	q.w.askPath(pathQuestion{
		title: "The file to send", text: "Where should it lie?", do: "Write it",
		path: filepath.Join(documents(), q.sheet.FileName("", strings.TrimPrefix(parcel.Ending, "."))),
		take: func(path string) {
			q.w.say("Packing …")
			q.w.do(func() func() {
				kept, err := writeParcel(path, func(w io.Writer) error { return send(context.Background(), w) })
				return func() {
					if err != nil {
						q.w.tell("This was not sent", sentence(err))
						return
					}
					text := "It lies in " + path + ". Send that file in any way you like."
					if len(kept) > 0 {
						text += "\n\nKept back:\n" + strings.Join(kept, "\n")
					}
					q.w.tell("The quote is packed", text)
				}
			})
		},
	})
}

// writeParcel writes a parcel beside path and puts it in its place, so that there
// is never half of one; it is read back, to see that it arrived on the disk, and
// says itself what was kept back.
func writeParcel(path string, write func(io.Writer) error) (kept []string, err error) {
	f, err := os.CreateTemp(filepath.Dir(path), ".meltwright-*")
	if err != nil {
		return nil, fault.Fault{Field: "Folder", Value: filepath.Dir(path), Problem: "cannot be written to: " + err.Error(), Remedy: "choose another"}
	}
	defer os.Remove(f.Name()) // gone already once it is in its place
	if err = write(f); err == nil {
		err = f.Sync()
	}
	if err == nil {
		var c parcel.Contents
		if c, err = readParcel(f); err == nil {
			kept = c.LeftOut
		}
	}
	if closed := f.Close(); err == nil {
		err = closed
	}
	if err == nil {
		err = os.Rename(f.Name(), path)
	}
	return kept, err
}

func readParcel(f *os.File) (parcel.Contents, error) {
	is, err := f.Stat()
	if err != nil {
		return parcel.Contents{}, err
	}
	return parcel.Read(f, is.Size())
}

// receive asks for a file that somebody has sent, and keeps it as a new quote.
func (w *Window) receive() {
	if w.desk == nil || w.readOnly {
		w.say("Nothing can be received here: the file is open to read only.")
		return
	}
	w.askPath(pathQuestion{
		title: "Which file was sent to you?", text: "It ends in " + parcel.Ending + ". It becomes a new quote; nothing of yours is changed.",
		path: filepath.Join(documents(), ""), do: "Open it", existing: true,
		take: func(path string) {
			w.say("Opening …")
			d := w.desk
			w.do(func() func() {
				s, c, err := receiveFrom(d, path)
				return func() { w.received(s, c, err) }
			})
		},
	})
}

func receiveFrom(d *desk.Desk, path string) (quote.Quote, parcel.Contents, error) {
	f, err := os.Open(path)
	if err != nil {
		return quote.Quote{}, parcel.Contents{}, fault.Fault{Field: "Parcel", Value: path, Problem: "cannot be opened: " + err.Error(), Remedy: "choose one that is there"}
	}
	defer f.Close()
	is, err := f.Stat()
	if err != nil {
		return quote.Quote{}, parcel.Contents{}, err
	}
	s, c, err := d.Receive(context.Background(), f, is.Size())
	if s == nil {
		return quote.Quote{}, c, err
	}
	return s.Quote(), c, err
}

// received opens what was received, and says who sent it and what they kept back.
func (w *Window) received(q quote.Quote, c parcel.Contents, err error) {
	if q.ID == 0 {
		w.tell("This was not received", sentence(err))
		return
	}
	w.show(newQuoteScreen(w, w.desk.Put(q)))
	text := "It is your quote " + q.Number + " now, a draft, priced with your own shop book."
	if from := strings.TrimSpace(c.From + " " + c.Number + c.Letter); from != "" {
		text = "From " + from + ". " + text
	}
	if err != nil {
		text += "\n\nNot all of it could be kept. " + sentence(err)
	}
	for _, part := range []struct {
		head  string
		lines []string
	}{{"They kept back:", c.LeftOut}, {"Notes:", c.Notes}} {
		if len(part.lines) > 0 {
			text += "\n\n" + part.head + "\n" + strings.Join(part.lines, "\n")
		}
	}
	if c.Book != nil {
		text += "\n\nTheir shop book came along. It was not taken over; “receive --into” on the command line writes it out to be looked at."
	}
	w.tell("“"+titleOf(q.Commission)+"” was received", text)
}

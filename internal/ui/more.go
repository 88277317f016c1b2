package ui

import (
	"fyne.io/fyne/v2"

	"meltwright/internal/ui/kit"
	"meltwright/internal/ui/look"
)

// morePage is a page below the stages: of the quote as a whole, once it has a
// price.
type morePage struct {
	id, name string
	make     func(*quoteScreen) stagePage
	// detail is what the rail says of it.
	detail func(*quoteScreen) string
}

// morePages are the pages below the stages, in their order.
func morePages() []morePage {
	return []morePage{
		{sureID, "How sure", newSurePage, sureDetail},
		{soonID, "How soon", newSoonPage, soonDetail},
		{revisionsID, "Revisions", newRevisionsPage, revisionsDetail},
		{picturesID, "Pictures", newPicturesPage, picturesDetail},
		{previewID, "Preview", newPreviewPage, previewDetail},
	}
}

// newMorePage makes one of the pages below the stages; false if id is none.
func newMorePage(q *quoteScreen, id string) (stagePage, bool) {
	for _, m := range morePages() {
		if m.id == id {
			return m.make(q), true
		}
	}
	return nil, false
}

// moreIDs name the pages below the stages.
func moreIDs() (ids []string) {
	for _, m := range morePages() {
		ids = append(ids, m.id)
	}
	return ids
}

// moreRows are their rows in the rail.
func (q *quoteScreen) moreRows() (rows []kit.RailRow) {
	for _, m := range morePages() {
		rows = append(rows, kit.RailRow{ID: m.id, Name: m.name, Detail: m.detail(q), Colour: look.StageColour(m.id)})
	}
	return rows
}

// beside is what stands at the right of a page: the price, but where the page
// needs the room.
func (q *quoteScreen) beside() fyne.CanvasObject {
	if q.stage == previewID {
		return nil
	}
	return q.price
}

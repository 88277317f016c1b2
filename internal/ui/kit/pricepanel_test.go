package kit

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"

	"meltwright/internal/ui/look"
)

func demoPanel() *PricePanel {
	p := NewPricePanel()
	p.Set(demoPrice())
	return p
}

func TestThePricePanelLooksAsItDid(t *testing.T) {
	master(t, "pricepanel", 300, 560, func() fyne.CanvasObject { return demoPanel() })
}

func TestAnEarlierPriceSaysSo(t *testing.T) {
	plaster(t)
	p := demoPanel()
	w := window(t, p, 300, 700)
	price := demoPrice()
	price.Stale = "The height cannot be read. This is the last good price."
	p.Set(price)
	assert.True(t, says(w.Content(), "This is the last good price."))
	assert.Equal(t, look.Muted, p.body.amount.colour)
	p.Set(demoPrice())
	assert.False(t, says(w.Content(), "last good price"))
	assert.Equal(t, look.Ink, p.body.amount.colour)
}

func TestALargePriceIsShownWholeAndSmaller(t *testing.T) {
	plaster(t)
	p := demoPanel()
	w := window(t, p, 260, 700)
	plainSize := p.body.amount.TextSize
	price := demoPrice()
	price.Amount = "CA$1,284,000,000.00"
	p.Set(price)
	assert.Less(t, p.body.amount.TextSize, plainSize)
	assert.True(t, says(w.Content(), price.Amount))
	for _, s := range texts(w.Content()) {
		assert.LessOrEqual(t, s.x+s.w, float32(241), s.text)
	}
}

func TestAWidePanelLaysItsPartsSideBySide(t *testing.T) {
	plaster(t)
	p := demoPanel()
	tall, two, three := p.heightFor(300), p.heightFor(620), p.heightFor(1000)
	assert.Greater(t, tall, two)
	assert.Greater(t, two, three)
	w := window(t, p, 1000, 260)
	apart(t, texts(w.Content()), 1000, 260)
}

func TestFactsAndCautionsComeAndGo(t *testing.T) {
	plaster(t)
	p := demoPanel()
	w := window(t, p, 300, 800)
	price := demoPrice()
	price.Facts, price.Cautions, price.Range = price.Facts[:1], nil, nil
	p.Set(price)
	assert.True(t, says(w.Content(), "Finished bronze"))
	assert.False(t, says(w.Content(), "Metal poured"))
	assert.False(t, says(w.Content(), "rated gear"))
	assert.False(t, says(w.Content(), "8 in 10"))
	p.Set(demoPrice())
	assert.True(t, says(w.Content(), "rated gear"))
	p.Set(Price{})
	assert.False(t, says(w.Content(), "Finished bronze"))
}

func TestTheRangeBarPutsPricesWhereTheyBelong(t *testing.T) {
	r := &PriceRange{Least: 100, Most: 200}
	assert.Equal(t, float32(0), r.part(100))
	assert.Equal(t, float32(0.25), r.part(125))
	assert.Equal(t, float32(1), r.part(200))
	assert.Equal(t, float32(0), r.part(50), "below the bar")
	assert.Equal(t, float32(1), r.part(5000), "beyond it")
	assert.Equal(t, float32(0), (&PriceRange{Least: 5, Most: 5}).part(5), "a bar of no length")
}

func TestCautionsHaveSignsOfTheirOwn(t *testing.T) {
	plaster(t)
	note, warn := NewCautionBox(Caution{CautionNote, "Two weeks are held."}), NewCautionBox(Caution{CautionWarn, "Lift with rated gear."})
	assert.NotEqual(t, note.sign.icon, warn.sign.icon, "not by colour alone")
	assert.NotEqual(t, note.ground.FillColor, warn.ground.FillColor)
	note.Set(Caution{CautionWarn, "Two weeks are held."})
	assert.Equal(t, warn.sign.icon, note.sign.icon)
}

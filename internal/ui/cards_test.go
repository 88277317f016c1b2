package ui

import (
	"fmt"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"

	"meltwright/internal/quote"
	"meltwright/internal/ui/look"
)

// withTown begins a client with a person and a site, as somebody types it.
func (b *bench) withTown() {
	b.Helper()
	b.menu("Clients and calls")
	b.tap("New client")
	b.fill("client.name", "Town of Port Haskel")
	b.fill("client.contact", "Ida Moss")
	b.tap("Add a person")
	b.fill("person.name", "Nils Reed")
	b.fill("person.role", "harbour master")
	b.tap("Add a site")
	b.fill("site.name", "Cannery Quay")
	b.clock.pass(time.Second)
}

// withCall begins a call of the town's that closes in five days.
func (b *bench) withCall() {
	b.Helper()
	b.withTown()
	b.menu("Clients and calls")
	b.w.screen.(*cardsScreen).choose(callCards)
	b.tap("New call")
	b.fill("call.title", "A figure for the quay")
	b.pick("call.client", "Town of Port Haskel")
	b.fill("call.deadline", "19 March 2026")
	b.fill("call.budget", "150,000")
	b.clock.pass(time.Second)
}

func TestAClientIsTypedWithPeopleAndSitesAndFoundByAnyOfThem(t *testing.T) {
	b := sit(t)
	b.withTown()
	assert.Contains(t, b.said(), "Nils Reed · harbour master")
	b.menu("Clients and calls")
	for _, words := range []string{"reed", "quay", "haskel moss"} {
		b.w.screen.(*cardsScreen).list.SetSearch("")
		b.typed(words)
		assert.Contains(t, b.said(), "1 client", words)
		b.w.screen.(*cardsScreen).list.SetSearch("")
	}
	b.w.screen.(*cardsScreen).reload()
	b.press(fyne.KeyReturn)
	b.fill("client.name", "Port of Haskel")
	b.menu("Undo")
	assert.Equal(t, "Town of Port Haskel", b.field("client.name").Text())
	b.tap("Remove this person")
	assert.NotContains(t, b.said(), "Nils Reed")
	b.menu("Undo")
	assert.Contains(t, b.said(), "Nils Reed")
}

func TestACallSaysItsDayAndItsSumAndIsRemindedOf(t *testing.T) {
	b := sit(t)
	b.withCall()
	assert.Contains(t, b.said(), "= Thursday 19 March 2026, in 5 days")
	assert.Contains(t, b.said(), "= $150,000.00")
	b.menu("All quotes")
	assert.Contains(t, b.said(), "Call “A figure for the quay”, Town of Port Haskel, closes on 19 March 2026; no quote yet")
	assert.Contains(t, b.said(), "in 5 days")

	b.w.list.soon.table.OnOpen("0")
	b.fill("call.deadline", "some day in May")
	assert.Contains(t, b.said(), "is not a date")
	b.clock.pass(time.Second)
	b.menu("All quotes")
	assert.NotContains(t, b.said(), "closes on")
	b.menu("Clients and calls")
	b.w.screen.(*cardsScreen).choose(callCards)
	assert.Contains(t, b.said(), "some day in May", "kept as typed")
}

func TestAQuoteIsBegunFromACallAndTakesWhatItSays(t *testing.T) {
	b := sit(t)
	b.withCall()
	b.tap("New quote for it")
	q := b.quote().sheet.Quote()
	assert.Equal(t, "Town of Port Haskel", q.Commission.Client)
	assert.Equal(t, "A figure for the quay", b.field("head.ofcall").Text())
	assert.Contains(t, b.said(), "of a budget of $150,000: ")
	assert.Contains(t, b.said(), "to spare")
	b.pick("head.ofsite", "Cannery Quay")
	assert.Equal(t, "Cannery Quay", b.field("head.place").Text())
	b.clock.pass(time.Second)
	b.menu("All quotes")
	assert.Contains(t, b.said(), "2026-001A is a draft")
	b.typed("figure quay")
	assert.Contains(t, b.said(), "1 quote", "found by the words of its call")
}

func TestAClientIsRemovedWithAWayBack(t *testing.T) {
	b := sit(t)
	b.withTown()
	b.menu("Clients and calls")
	b.tap("Remove")
	assert.Contains(t, b.said(), "No clients yet.")
	b.tap("Bring back")
	assert.Contains(t, b.said(), "1 client")
	b.tap("Remove")
	b.w.screen.(*cardsScreen).choose(goneClients)
	b.w.screen.(*cardsScreen).open(0)
	assert.Contains(t, b.said(), "“Town of Port Haskel” is back.")
}

func TestTheListIsSortedAndFiltered(t *testing.T) {
	b := sit(t, withDemo, withMaker)
	b.withTown()
	b.tap("New quote for it")
	b.fill("head.title", "Heron")
	b.quote().issue()
	b.tap("Issue A")
	b.menu("All quotes")
	assert.Contains(t, b.said(), "3 quotes")
	o := b.w.list.order
	o.state.Choose("Issued")
	o.state.OnChanged("Issued")
	assert.Contains(t, b.said(), "1 quote")
	assert.Contains(t, b.said(), "Heron")
	o.state.Choose("Accepted")
	o.state.OnChanged("Accepted")
	assert.Contains(t, b.said(), "There is no such quote.")
	o.clear()
	for order, first := range map[quote.Order]string{quote.ByPrice: "The Weir Keeper", quote.ByClient: "Otter, Floating", quote.ByNumber: "Heron"} {
		o.order.Choose(orderWords[order])
		o.order.OnChanged(orderWords[order])
		assert.Equal(t, first, b.w.list.row(0).Title, order)
	}
	b.menu("Clients and calls")
	b.press(fyne.KeyReturn)
	b.tap("Its quotes")
	assert.Contains(t, b.said(), "1 quote")
	b.tap("Only Town of Port Haskel: show everyone's")
	assert.Contains(t, b.said(), "3 quotes")
}

func TestAnIssuedQuoteThatIsNotAnsweredLapsesAndIsRemindedOf(t *testing.T) {
	now := noon
	b := sit(t, withDemo, withMaker, func(o *Options) { o.Now = func() time.Time { return now } })
	b.quote().issue()
	b.tap("Issue A")
	now = noon.AddDate(0, 0, 50)
	b.menu("All quotes")
	assert.Contains(t, b.said(), "stands until 13 May 2026")
	assert.Contains(t, b.said(), "in 10 days")
	now = noon.AddDate(0, 0, 61)
	b.menu("All quotes")
	assert.Contains(t, b.said(), "lapsed: it stood until 13 May 2026")
	assert.Contains(t, b.said(), "yesterday")
	b.w.list.soon.table.OnOpen("0")
	assert.Equal(t, revisionsID, b.quote().stage)
	assert.Equal(t, quote.Lapsed, b.quote().sheet.Quote().State)
	b.tap("Issued after all")
	assert.Equal(t, quote.Issued, b.kept().State)
}

// cardScenes are the screens of clients and calls, and the list that reminds.
var cardScenes = map[string]func(*bench){
	"clients": func(b *bench) { b.menu("Clients and calls") },
	"calls": func(b *bench) {
		b.menu("Clients and calls")
		b.w.screen.(*cardsScreen).choose(callCards)
	},
	"client": func(b *bench) {
		b.menu("Clients and calls")
		b.w.screen.(*cardsScreen).open(0)
	},
	"call":      func(b *bench) { b.w.list.soon.table.OnOpen("0") },
	"reminders": func(b *bench) { b.menu("All quotes") },
	"head": func(b *bench) {
		b.w.list.soon.table.OnOpen("0")
		b.tap("New quote for it")
	},
}

func TestTheCardsLookAsTheyDidAndHoldTheirWords(t *testing.T) {
	for scene, stage := range cardScenes {
		for variant, mode := range bothModes {
			t.Run(scene+"-"+variant, func(t *testing.T) {
				b := sit(t, withDemo)
				b.withCall()
				b.menu("All quotes")
				b.wear(mode, 100)
				b.win.Resize(fyne.NewSize(1280, 820))
				stage(b)
				b.picture(fmt.Sprintf("%s-1280-%s", scene, variant))
				if scene == "client" || scene == "call" || scene == "reminders" || scene == "calls" {
					test.AssertRendersToMarkup(t, scene+"-"+variant+".xml", b.win.Canvas())
				}
			})
		}
		for _, percent := range []int{100, 200} {
			t.Run(fmt.Sprint(scene, percent), func(t *testing.T) {
				b := sit(t, withDemo)
				b.withCall()
				b.menu("All quotes")
				b.wear(look.Light, percent)
				b.win.Resize(fyne.NewSize(1024, 700))
				stage(b)
				b.holdsItsWords(1024)
				b.picture(fmt.Sprintf("%s-1024-%d", scene, percent))
			})
		}
	}
}

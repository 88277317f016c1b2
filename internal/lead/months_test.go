package lead

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

func TestALongScheduleIsMarkedByQuartersOrYears(t *testing.T) {
	from := time.Date(2027, time.January, 11, 0, 0, 0, 0, time.UTC)
	at := func(weeks int) Schedule {
		return Schedule{Start: from, Ready: from.AddDate(0, 0, 7*weeks), Weeks: float64(weeks)}
	}
	month := func(y int, m time.Month) time.Time { return time.Date(y, m, 1, 0, 0, 0, 0, time.UTC) }
	assert.Equal(t, []time.Time{month(2027, time.February), month(2027, time.March)}, at(10).Months())
	assert.Equal(t, []time.Time{month(2027, time.April), month(2027, time.July), month(2027, time.October), month(2028, time.January), month(2028, time.April)}, at(70).Months())
	assert.Equal(t, []time.Time{month(2028, time.January), month(2029, time.January), month(2030, time.January), month(2031, time.January)}, at(210).Months())
	assert.Empty(t, at(1).Months())
}

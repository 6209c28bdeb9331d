package weather

import (
	"bytes"
	"fmt"
	"slices"
	"strconv"

	"winterline/pipe/units"
)

// timeColumn reads the times of a file, row by row: stamps such as 2026-01-17 05:00, or
// throughout the file dates with slashes as spreadsheets write them, such as
// 1/17/2026 5:00 AM. Which number of these is the day and which the month follows from
// the whole column only: 1/2/2026 is the 2nd of January or the 1st of February.
//
// Each time that parse takes is one row of the record, to be added with the stamp that
// parse returns. settle completes the stamps when all rows are there.
type timeColumn struct {
	*record
	dates []slashDate // one a row of the record, in a file that has such
}

// concerns says whether a time is a date with slashes, or stands among such.
func (c *timeColumn) concerns(text []byte) bool {
	return len(c.dates) > 0 || bytes.IndexByte(text, '/') >= 0
}

// parse reads the time of one row. The stamp of a date with slashes counts from the
// midnight before it, until settle adds the day; a reader may shift it meanwhile.
func (c *timeColumn) parse(text []byte) (stamp int64, err error) {
	var date slashDate
	slashes := bytes.IndexByte(text, '/') >= 0
	if slashes {
		date, err = parseSlashDate(text)
		stamp = int64(date.second)
	} else {
		stamp, _, err = parseStamp(text)
	}
	switch {
	case err != nil:
		return 0, err
	case len(c.stamp) > 0 && slashes != (len(c.dates) > 0):
		return 0, &units.Error{Found: strconv.Quote(units.Shorten(string(text))) + ", in another form than the times before",
			Expected: "one form throughout, such as 2026-01-17 05:00"}
	case slashes:
		c.dates = append(c.dates, date)
	}
	return stamp, nil
}

// settle completes the stamps of dates with slashes, or says why they cannot be: rows that
// contradict each other, or a row that has two readings where no other decides. key is
// the column as messages name it.
func (c *timeColumn) settle(key string) *units.Problem {
	if len(c.dates) == 0 {
		return nil
	}
	left := []dateOrder{monthFirst, dayFirst, yearFirst}
	struck := map[dateOrder]int{} // the first row that is no date in that order
	for row, date := range c.dates {
		left = slices.DeleteFunc(left, func(o dateOrder) bool {
			_, ok := date.stamp(o)
			if !ok {
				struck[o] = row
			}
			return !ok
		})
		if len(left) == 0 {
			return c.conflict(key, row, struck)
		}
	}
	if doubt := c.doubt(key, left); doubt != nil {
		return doubt
	}
	order := left[0]
	for row, date := range c.dates {
		day, _ := date.stamp(order) // every row is one in the orders left
		c.stamp[row] += day
	}
	c.tell(order, struck)
	return nil
}

// doubt refuses a column in which a row is another day in each order that is left.
func (c *timeColumn) doubt(key string, left []dateOrder) *units.Problem {
	for row, date := range c.dates {
		first, _ := date.stamp(left[0])
		for _, o := range left[1:] {
			if other, _ := date.stamp(o); other != first {
				p := c.problem(row, key, fmt.Sprintf("%s, which is %s (%s) or %s (%s), and no row that decides",
					date, wall(first).Format("2006-01-02"), left[0], wall(other).Format("2006-01-02"), o),
					"dates such as 2026-01-17, or a day after the 12th somewhere in the column")
				return &p
			}
		}
	}
	return nil
}

// conflict refuses a column at the row that left no order of day and month.
func (c *timeColumn) conflict(key string, row int, struck map[dateOrder]int) *units.Problem {
	found := c.dates[row].String()
	for o := range orderCount {
		if at := struck[o]; at < row && o != yearFirst {
			found += fmt.Sprintf(" after %s on line %d, where the other number is the month", c.dates[at], c.line[at])
		}
	}
	p := c.problem(row, key, found, "day and month in one order throughout, such as 2026-01-17")
	return &p
}

// tell notes which number was taken for the day, and the row that decided it.
func (c *timeColumn) tell(order dateOrder, struck map[dateOrder]int) {
	evidence := "each row is the same day in every order"
	against := dayFirst
	if order == dayFirst {
		against = monthFirst
	}
	if row, ok := struck[against]; ok {
		evidence = fmt.Sprintf("%s on line %d can be read no other way", c.dates[row], c.line[row])
	}
	text := "dates read " + order.String()
	if c.dates[0].digits[order.places()[0]] == 2 {
		text += ", years as 1930 to 2029"
	}
	c.note("clock", text, evidence)
}

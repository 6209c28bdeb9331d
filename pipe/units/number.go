package units

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"
)

// ParseNumber reads a plain decimal number such as 12, -0.5 or 1.2e3. Words, NaN, Inf,
// hexadecimal, digit separators and values beyond float64 are refused. Blanks around it are allowed.
func ParseNumber(text string) (float64, error) {
	s := strings.TrimSpace(text)
	if s == "" {
		return 0, &Error{Found: "nothing", Expected: "a number"}
	}
	if strings.Trim(s, "0123456789+-.eE") != "" || strings.ContainsAny(s, "xXpP_") {
		return 0, &Error{Found: quote(s), Expected: "a number"}
	}
	v, err := strconv.ParseFloat(s, 64)
	switch {
	case errors.Is(err, strconv.ErrRange) || err == nil && math.IsInf(v, 0):
		return 0, &Error{Found: quote(s), Expected: "a number that is not beyond all measure"}
	case err != nil:
		return 0, &Error{Found: quote(s), Expected: "a number"}
	}
	return v, nil
}

// timeForms are the stamps that every input file may use.
var timeForms = []string{
	"2006-01-02 15:04", "2006-01-02T15:04", "2006-01-02 15:04:05", "2006-01-02T15:04:05",
	time.RFC3339, "2006-01-02 15:04:05Z07:00", "2006-01-02T15:04Z07:00", "2006-01-02 15:04Z07:00", "2006-01-02",
}

// ParseTime reads a stamp such as 2026-01-17 05:00, 2026-01-17T05:00:00 or RFC 3339 with an
// offset. The result is the wall clock as written, carried as UTC: an offset is read and dropped,
// because all of winterline runs on local standard time. A date alone is its midnight.
func ParseTime(text string) (time.Time, error) {
	s := strings.TrimSpace(text)
	for _, form := range timeForms {
		t, err := time.Parse(form, s)
		if err != nil {
			continue
		}
		if t.Year() < 1700 || t.Year() > 2500 {
			return time.Time{}, &Error{Found: quote(s), Expected: "a year from 1700 to 2500"}
		}
		return time.Date(t.Year(), t.Month(), t.Day(), t.Hour(), t.Minute(), t.Second(), t.Nanosecond(), time.UTC), nil
	}
	found := quote(s)
	if s == "" {
		found = "nothing"
	}
	return time.Time{}, &Error{Found: found, Expected: "a time such as 2026-01-17 05:00"}
}

// Error says what stands in a text and what would do instead; a reader adds file, line and
// key to make it a Problem.
type Error struct{ Found, Expected string }

// Error gives "found …; expected …".
func (e *Error) Error() string { return fmt.Sprintf("found %s; expected %s", e.Found, e.Expected) }

// At makes an error of this package a Problem at a place.
func At(file string, line int, key string, err error) Problem {
	p := Problem{File: file, Line: line, Key: key, Found: err.Error(), Expected: "something readable"}
	var e *Error
	if errors.As(err, &e) {
		p.Found, p.Expected = e.Found, e.Expected
	}
	return p
}

// quote shows user text, shortened where it is long.
func quote(s string) string {
	const most = 60
	if r := []rune(s); len(r) > most {
		s = string(r[:most]) + "…"
	}
	return strconv.Quote(s)
}

package units

import (
	"strings"
	"time"
	"unicode"
)

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
	t, ok := parseStamp(s)
	switch {
	case !ok && s == "":
		return time.Time{}, &Error{Found: "nothing", Expected: timeExample}
	case !ok:
		return time.Time{}, &Error{Found: quote(s), Expected: timeExample + adviceOnWord(s)}
	case t.Year() < 1700 || t.Year() > 2500:
		return time.Time{}, &Error{Found: quote(s), Expected: "a year from 1700 to 2500"}
	}
	return time.Date(t.Year(), t.Month(), t.Day(), t.Hour(), t.Minute(), t.Second(), t.Nanosecond(), time.UTC), nil
}

const timeExample = "a time such as 2026-01-17 05:00"

func parseStamp(text string) (t time.Time, ok bool) {
	for _, form := range timeForms {
		if t, err := time.Parse(form, text); err == nil {
			return t, true
		}
	}
	return time.Time{}, false
}

// adviceOnWord is for a stamp that would do without the word after it: EST, CDT, UTC, AM, PM.
func adviceOnWord(text string) string {
	i := strings.LastIndexByte(text, ' ')
	if i < 0 || strings.ContainsFunc(text[i+1:], func(r rune) bool { return !unicode.IsLetter(r) }) {
		return ""
	}
	if _, ok := parseStamp(strings.TrimSpace(text[:i])); !ok {
		return ""
	}
	return ": local standard time by the 24-hour clock, with no word after it"
}

// OffsetOf returns the offset from UTC with which a stamp that ParseTime takes ends, as it is
// written: "Z" or "-06:00"; "" where it has none.
func OffsetOf(stamp string) string {
	const date = len("2026-01-17") // whose hyphens are no signs
	stamp = strings.TrimSpace(stamp)
	if len(stamp) <= date {
		return ""
	}
	if i := strings.LastIndexAny(stamp[date:], "Z+-"); i >= 0 {
		return stamp[date+i:]
	}
	return ""
}

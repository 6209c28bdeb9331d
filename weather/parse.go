package weather

import (
	"math"
	"time"

	"winterline/pipe/units"
)

// powersOfTen are those that a float64 holds exactly.
var powersOfTen = [...]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12,
	1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22}

// parseDecimal reads a plain number such as 12, -0.5 or .3 with the same result as
// units.ParseNumber, and without allocating. ok is false for anything but a number.
//
// Up to fifteen digits are a whole number that a float64 holds exactly, and so is the
// power of ten to divide it by: one rounding then gives the nearest float64 (Clinger,
// 1990, PLDI '90, "How to read floating point numbers accurately"; from memory).
func parseDecimal(text []byte) (v float64, ok bool) {
	rest, negative := text, false
	if len(rest) > 0 && (rest[0] == '-' || rest[0] == '+') {
		negative, rest = rest[0] == '-', rest[1:]
	}
	var whole uint64
	digits, places, point := 0, 0, false
	for _, b := range rest {
		switch {
		case b >= '0' && b <= '9':
			whole = whole*10 + uint64(b-'0')
			if digits++; digits > 15 {
				return parseAnyNumber(text)
			}
			if point {
				places++
			}
		case b == '.' && !point:
			point = true
		default:
			return parseAnyNumber(text)
		}
	}
	if digits == 0 {
		return 0, false
	}
	if v = float64(whole) / powersOfTen[places]; negative {
		v = math.Copysign(v, -1)
	}
	return v, true
}

// parseAnyNumber is the slow way for numbers with exponents or many digits.
func parseAnyNumber(text []byte) (float64, bool) {
	v, err := units.ParseNumber(string(text))
	return v, err == nil
}

// parseDigits reads a number of digits only, such as the 07 of a time; ok is false for
// anything else, and beyond nine digits.
func parseDigits(text []byte) (n int, ok bool) {
	if len(text) == 0 || len(text) > 9 {
		return 0, false
	}
	for _, b := range text {
		if b < '0' || b > '9' {
			return 0, false
		}
		n = n*10 + int(b-'0')
	}
	return n, true
}

// parseAllDigits reads as many numbers of digits only as there is room for.
func parseAllDigits(fields [][]byte, into []int) (ok bool) {
	for i := range into {
		if into[i], ok = parseDigits(fields[i]); !ok {
			return false
		}
	}
	return true
}

// clock returns the stamp of a date and time of day [s since 1970 as if UTC]; ok is
// false for one that does not exist, or lies outside the years 1700 to 2500. Hour 24 is
// midnight at the end of the day.
func clock(year, month, day, hour, minute, second int) (stamp int64, ok bool) {
	if year < 1700 || year > 2500 || month < 1 || month > 12 || day < 1 || day > daysIn(year, month) ||
		hour < 0 || hour > 24 || minute < 0 || minute > 59 || second < 0 || second > 59 ||
		hour == 24 && (minute > 0 || second > 0) {
		return 0, false
	}
	return time.Date(year, time.Month(month), day, hour, minute, second, 0, time.UTC).Unix(), true
}

// daysIn returns the length of a month [days].
func daysIn(year, month int) int {
	switch time.Month(month) {
	case time.February:
		if year%4 == 0 && (year%100 != 0 || year%400 == 0) {
			return 29
		}
		return 28
	case time.April, time.June, time.September, time.November:
		return 30
	}
	return 31
}

// parseStamp reads a stamp such as 2026-01-17 05:00 or 2026-01-17T05:00:00-06:00 as
// units.ParseTime does: the wall clock as written, in whole seconds, and the offset
// after it, "" for none, which does not move it. The error is one of package units.
func parseStamp(text []byte) (stamp int64, offset []byte, err error) {
	if stamp, offset, ok := parseUsualStamp(text); ok {
		return stamp, offset, nil
	}
	t, err := units.ParseTime(string(text))
	if err != nil {
		return 0, nil, err
	}
	return t.Unix(), []byte(units.OffsetOf(string(text))), nil
}

// parseUsualStamp reads the stamps that files are full of, without allocating; ok is
// false for anything else, which parseStamp then looks at with more patience.
func parseUsualStamp(text []byte) (stamp int64, offset []byte, ok bool) {
	const date, minutes, seconds = len("2026-01-17"), len("2026-01-17 05:00"), len("2026-01-17 05:00:00")
	if len(text) < minutes || text[4] != '-' || text[7] != '-' || text[date] != ' ' && text[date] != 'T' || text[date+3] != ':' {
		return 0, nil, false
	}
	var parts [6]int
	for i, at := range [...]struct{ from, to int }{{0, 4}, {5, 7}, {8, 10}, {11, 13}, {14, 16}} {
		if parts[i], ok = parseDigits(text[at.from:at.to]); !ok {
			return 0, nil, false
		}
	}
	rest := text[minutes:]
	if len(text) >= seconds && text[minutes] == ':' {
		if parts[5], ok = parseDigits(text[minutes+1 : seconds]); !ok {
			return 0, nil, false
		}
		rest = text[seconds:]
	}
	if len(rest) > 0 && !plainOffset(rest) || parts[3] == 24 {
		return 0, nil, false
	}
	stamp, ok = clock(parts[0], parts[1], parts[2], parts[3], parts[4], parts[5])
	return stamp, rest, ok
}

// plainOffset says whether text is an offset such as Z or -06:00.
func plainOffset(text []byte) bool {
	if len(text) == 1 {
		return text[0] == 'Z'
	}
	if len(text) != len("-06:00") || text[0] != '-' && text[0] != '+' || text[3] != ':' {
		return false
	}
	hours, a := parseDigits(text[1:3])
	minutes, b := parseDigits(text[4:6])
	return a && b && hours < 24 && minutes < 60
}

// appendStamp appends a stamp as the plain form writes it.
func appendStamp(b []byte, stamp int64) []byte {
	t := wall(stamp)
	if stamp%60 != 0 {
		return t.AppendFormat(b, "2006-01-02 15:04:05")
	}
	return t.AppendFormat(b, "2006-01-02 15:04")
}

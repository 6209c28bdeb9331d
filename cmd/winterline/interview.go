package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode"
)

// interview asks what a homeowner can answer, puts the answers into the starter's files
// and says how many questions were left unknown. Nothing invented stays in the layout:
// what is not answered becomes unknown.
func interview(ctx context.Context, s streams, files []caseFile) ([]caseFile, int, error) {
	v := &interviewer{streams: s, ctx: ctx, lines: readLines(s.stdin), draft: newDraft(files[0].text)}
	v.forget()
	fmt.Fprintln(s.stdout, "A few questions. Enter alone means that you do not know: a usual value is then taken and listed as a guess.")
	v.start()
	v.house()
	v.pumping()
	v.joint()
	v.yardRun()
	v.farEnd()
	v.surroundings()
	if v.err != nil {
		return nil, 0, v.err
	}
	if v.draft.err != nil {
		return nil, 0, v.draft.err
	}
	// The starter's pump.csv is of another house: the answers, or three supposed schedules,
	// stand in for it.
	return []caseFile{{"layout.toml", v.draft.text()}, files[1]}, v.unknown, nil
}

// interviewer asks one question after the other until an error, such as an interrupt,
// ends it.
type interviewer struct {
	streams
	ctx     context.Context
	lines   <-chan string // closed at the end of input
	draft   *draft
	si      bool
	unknown int // questions left unknown
	err     error
}

// readLines hands on input line by line, so that waiting for it can be interrupted.
func readLines(in io.Reader) <-chan string {
	lines := make(chan string)
	go func() {
		defer close(lines)
		for scan := bufio.NewScanner(in); scan.Scan(); {
			lines <- scan.Text()
		}
	}()
	return lines
}

// reply prints a question and gives the answer, trimmed; "" for Enter, for the word
// unknown and after the end of input.
func (v *interviewer) reply(words string) string {
	if v.err != nil {
		return ""
	}
	fmt.Fprint(v.stdout, words+": ")
	select {
	case <-v.ctx.Done():
		v.err = v.ctx.Err()
		return ""
	case line := <-v.lines:
		line = strings.TrimSpace(strings.Map(printable, line))
		if strings.EqualFold(line, "unknown") {
			return ""
		}
		return line
	}
}

func printable(c rune) rune {
	if unicode.IsPrint(c) {
		return c
	}
	return -1
}

// key is a place in the layout.
type key struct{ section, name string }

// try makes a change to the draft if the layout still reads with it, or says why not.
func (v *interviewer) try(change func(d *draft)) bool {
	next := v.draft.copy()
	change(next)
	if problems := next.problems(); len(problems) > 0 {
		p := problems[0]
		fmt.Fprintf(v.stdout, "  %s: found %s; expected %s. Once more, or Enter.\n", p.Key, p.Found, p.Expected)
		return false
	}
	v.draft = next
	return true
}

// ask asks until the answer fits or is Enter; put makes the change. It says whether
// there was an answer.
func (v *interviewer) ask(words string, put func(d *draft, answer string)) bool {
	for {
		answer := v.reply(words)
		if v.err != nil {
			return false
		}
		if answer == "" {
			v.unknown++
			return false
		}
		if v.try(func(d *draft) { put(d, answer) }) {
			return true
		}
	}
}

// measure asks for a quantity; a number alone takes the unit shown.
func (v *interviewer) measure(words, us, si string, keys ...key) bool {
	unit := us
	if v.si {
		unit = si
	}
	return v.ask(fmt.Sprintf("%s [%s]", words, unit), func(d *draft, answer string) {
		for _, k := range keys {
			d.set(k.section, k.name, strconv.Quote(withUnit(answer, unit)))
		}
	})
}

// withUnit adds the unit to a number that has none.
func withUnit(answer, unit string) string {
	if strings.ContainsFunc(answer, func(c rune) bool { return unicode.IsLetter(c) || strings.ContainsRune(`"'%°`, c) }) {
		return answer
	}
	return answer + " " + unit
}

// text asks for words.
func (v *interviewer) text(words string, keys ...key) bool {
	return v.ask(words, func(d *draft, answer string) {
		for _, k := range keys {
			d.set(k.section, k.name, strconv.Quote(answer))
		}
	})
}

// option is one answer to a question with a few.
type option struct {
	words string
	value string // as it stands in the layout; what choose gives back
}

// choose asks for one of a few answers by number; "" for Enter.
func (v *interviewer) choose(words string, options ...option) string {
	for i, o := range options {
		words += fmt.Sprintf("  %d %s", i+1, o.words)
	}
	for {
		answer := v.reply(words)
		if answer == "" {
			if v.err == nil {
				v.unknown++
			}
			return ""
		}
		if n, err := strconv.Atoi(answer); err == nil && n >= 1 && n <= len(options) {
			return options[n-1].value
		}
		fmt.Fprintf(v.stdout, "  found %q; expected a number from 1 to %d, or Enter\n", answer, len(options))
	}
}

// yes asks a question for yes or no: "true", "false", or "" for Enter.
func (v *interviewer) yes(words string) string {
	for {
		switch answer := strings.ToLower(v.reply(words + " [y/n]")); answer {
		case "":
			if v.err == nil {
				v.unknown++
			}
			return ""
		case "y", "yes":
			return "true"
		case "n", "no":
			return "false"
		default:
			fmt.Fprintf(v.stdout, "  found %q; expected y, n or Enter\n", answer)
		}
	}
}

// put sets a key to a choice, unless there was none.
func (v *interviewer) put(section, name, value string) {
	if value == "" || v.err != nil {
		return
	}
	if !v.try(func(d *draft) { d.set(section, name, value) }) {
		v.unknown++
	}
}

// must makes a change that needs no answer.
func (v *interviewer) must(change func(d *draft)) {
	change(v.draft)
	if problems := v.draft.problems(); len(problems) > 0 && v.err == nil {
		v.err = errors.New(problems.Error())
	}
}

package main

import (
	"context"

	"winterline/report"
	"winterline/sim/answers"
)

// Bounds of what --merge takes: how many files of shares, and how large one may be [bytes].
const (
	mostShares = 100_000
	mostShare  = 64 << 20
)

// checkShares refuses flags that contradict each other.
func (o *wintersOptions) checkShares() error {
	switch {
	case o.part != "" && o.merge:
		return usage("found --part and --merge; expected one of them")
	case o.part != "" && o.out != "":
		return usage("found --part and --out; expected --part alone: it prints its share, for a file")
	case o.draws < 0 || o.draws > answers.MostDraws:
		return usage("--draws: found %d; expected 0 to %d", o.draws, answers.MostDraws)
	case o.merge && o.draws != 0:
		return usage("found --merge and --draws; expected the files of shares alone: they hold their draws")
	case o.merge && o.inputOptions != inputOptions{}:
		return usage("found --merge and an input; expected the files of shares alone: they hold their inputs' answers")
	case o.part != "":
		if _, err := answers.ParsePart(o.part); err != nil {
			return usage("--part: %w", err)
		}
	}
	return nil
}

// share prints one share of the work.
func (o *wintersOptions) share(ctx context.Context, in *inputs) error {
	part, err := answers.ParsePart(o.part)
	if err != nil {
		return err
	}
	bar := newProgress(o.streams, o.quiet, 1, "simulating share "+part.String())
	defer bar.clear()
	s, err := (&answers.Engine{Progress: bar.counted(0)}).WintersShare(ctx, o.question(in), part)
	if err != nil {
		return in.wintersError(err)
	}
	return s.Write(o.stdout)
}

// join joins shares into the answer.
func (o *wintersOptions) join(ctx context.Context) error {
	told := report.Options{System: o.system(), Window: o.window, Results: o.folder("./results" + wintersEnding)}
	return o.produce(ctx, newStages(o.timings, o.stderr), told, func(context.Context) (*answers.WintersAnswer, error) {
		var shares []answers.NamedShare
		for _, file := range o.args {
			text, err := readBounded(file, opened, mostShare)
			if err != nil {
				return nil, problem(file, reason(err), "a share that winters --part has written")
			}
			s, err := answers.ReadShare(file, text)
			if err != nil {
				return nil, err
			}
			shares = append(shares, s)
		}
		return answers.MergeShares(shares)
	})
}

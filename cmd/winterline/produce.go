package main

import (
	"context"

	"winterline/report"
)

// production takes a command from its inputs, once read, to results R that are written and
// printed.
type production[R any] struct {
	folder   string // where results go; "" for nowhere
	simulate func(context.Context) (R, error)
	files    func(R) []report.File // of the results folder
	print    func(R) error
}

// run does it in that order. A folder that may not be replaced is refused before anything is simulated.
func (p *production[R]) run(ctx context.Context, watch *stages) (result R, err error) {
	if p.folder != "" {
		if err := report.MayReplace(p.folder); err != nil {
			return result, err
		}
	}
	watch.done("read")
	if result, err = p.simulate(ctx); err != nil {
		return result, err
	}
	watch.done("simulate")
	if p.folder != "" {
		ready, err := render(ctx, p.files(result))
		if err != nil {
			return result, err
		}
		if err := report.WriteFolderContext(ctx, p.folder, ready); err != nil {
			return result, err
		}
		watch.done("write")
	}
	return result, p.print(result)
}

package main

import (
	"context"

	"winterline/report"
)

// production is the way of a command from inputs that are read to results R that are
// written and told.
type production[R any] struct {
	folder   string // where results go; "" for nowhere
	simulate func(context.Context) (R, error)
	files    func(R) []report.File // of the results folder
	print    func(R) error
}

// run goes that way. A folder that may not be replaced ends it before the simulation.
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

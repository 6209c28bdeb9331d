package main

import (
	"bytes"
	"context"
	"io"
	"runtime"

	"golang.org/x/sync/errgroup"

	"winterline/report"
)

// render writes files into memory, as many at a time as there are processors, and gives
// them back in their order, ready to be copied.
func render(ctx context.Context, files []report.File) ([]report.File, error) {
	ready := make([]report.File, len(files))
	group, ctx := errgroup.WithContext(ctx)
	group.SetLimit(runtime.GOMAXPROCS(0))
	for i, f := range files {
		group.Go(func() error {
			if err := ctx.Err(); err != nil {
				return err
			}
			var text bytes.Buffer
			if err := f.Write(&text); err != nil {
				return err
			}
			ready[i] = report.File{Name: f.Name, Write: func(w io.Writer) error {
				_, err := w.Write(text.Bytes())
				return err
			}}
			return nil
		})
	}
	return ready, group.Wait()
}

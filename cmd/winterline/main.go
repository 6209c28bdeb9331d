package main

import (
	"context"
	"os"
	"os/signal"
	"slices"
	"syscall"
)

func main() { os.Exit(carryOut(standardStreams(), os.Args[1:])) }

// carryOut does what the command line says; a signal that asks the program to end cancels it. A signal that comes when
// all is done changes nothing any more: the process ends with the exit code of what was done.
func carryOut(s streams, args []string) int {
	ctx, stop := cancelledBy(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop) // a second one ends the process at once
	// A terminal that closes hangs up twice, through the shell and by itself: the second time must not cut off the tidying.
	ctx, done := cancelledBy(ctx, syscall.SIGHUP)
	defer done()
	return execute(ctx, s, args)
}

// cancelledBy gives a context that the first of some signals cancels. What the process was started to ignore, as nohup
// has it ignore hang-ups, stays ignored.
func cancelledBy(parent context.Context, signals ...os.Signal) (ctx context.Context, stop context.CancelFunc) {
	heeded := slices.DeleteFunc(signals, signal.Ignored)
	if len(heeded) == 0 {
		return context.WithCancel(parent) // no signal at all would mean every signal
	}
	return signal.NotifyContext(parent, heeded...)
}

// Winterline simulates a winter for the line that carries a basement sump pump's water
// away from the house: what stands in it, what freezes, and which way the water goes
// when it does.
package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"
)

func main() { os.Exit(carryOut(standardStreams(), os.Args[1:])) }

// carryOut does what the command line says; an interrupt cancels it, a second one ends it at once. One that comes when
// all is done changes nothing any more: the process ends with the exit code of what was done.
func carryOut(s streams, args []string) int {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop)
	return execute(ctx, s, args)
}

// Package answers answers what people ask about a simulated winter by running it again: how many degrees colder it
// could have been, and what changes to the line would have made of it. It reads no file and prints nothing.
package answers

// Package answers answers what people ask about a simulated winter by running it again. It reads no file and prints
// nothing.
//
// A question begins with a Source: a case as its files give it, from which changed cases are made. An Engine runs them
// side by side; its answers do not depend on how many workers it has. It tells
//
//   - Margin: how many degrees colder the winter could have been before the line shut, or water came out;
//   - Remedies: what single changes, and pairs of them, would have made of the winter, the best first;
//   - Sure: which of the guesses behind a case change its verdict within their usual ranges;
//   - Why: all of that for a winter that somebody saw, beside what was seen (MatchSeen);
//   - Size and SizeTwo: how little of a quantity, such as insulation, keeps the line open or the house dry;
//   - Winters: what becomes of layouts in every winter of a long record, how often they fail, and what that costs;
//   - Compare: what becomes of layouts under the same weather, beside each other.
//
// Work on many winters can be divided among machines (WintersShare, MergeShares).
package answers

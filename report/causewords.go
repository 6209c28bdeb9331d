package report

import "winterline/sim"

// The sentences that tell why a line froze shut, and how that agrees with what its owner saw, together in one place so
// that they can be read and bettered together. Figures come in as text, with their units; the order of their verbs is
// what each sentence's comment says.
const (
	causeShut      = "%s froze shut %s, %s from the wall."                         // segment, time, distance
	causeShutThere = "%s froze shut %s."                                           // segment, time
	causeMound     = "Ice on the ground grew over %s and shut the line there, %s." // end, time
	causePlug      = "The ice plug grew %s."                                       // reach
	causeSlush     = "The water had stayed liquid below freezing, and then turned to slush at once."
	causeAfter     = "The line had been shut at %s since %s, so no warm water came past any more." // where, time
	causeAfterToo  = "The line had been shut at %s since %s."                                      // where, time

	causeStood     = "%s stood there and took up %s of the pipe, %s."       // volume, share, why
	causeBrief     = "%s stood in the line at %s, %s."                      // volume, segment, why
	causeStretch   = "It was part of %s that stood %s."                     // volume, reach
	causeWarm      = "Warm water last ran through there %s before, %s: %s." // how long, time, volume
	causeNeverWarm = "No warm water had run through there since the record began, %s before."
	causeLeft      = "It left %s standing at %s." // volume, temperature
	causeHadIce    = "By then %s of what stood was ice already, which the water had not melted; there had been ice since %s."
	causeHeldHeat  = "Above freezing, the water in that %s of pipe held %s; to freeze shut it had to lose %s more." // length, heat, heat
	causeHeldIce   = "To freeze shut, the water in that %s of pipe had to lose %s."                                 // length, heat
	causeLostBoth  = "It lost %s on average until its first ice, %s, and %s over the whole time until it froze shut."
	causeLost      = "It lost %s on average until it froze shut."

	causeLayers    = "Of all that holds such heat back, %s did least (%s of the resistance) and %s most (%s)."
	causeOneLayer  = "Only %s held such heat back."
	causeIceLayer  = "The ice itself made %s of the resistance."
	causeBare      = "There is no insulation on the pipe."
	causeAir       = "The air was at %s with a wind of %s at the pipe when it froze shut; since the warm water it had averaged %s, with %s at the coldest."
	causeAirRecord = "The air was at %s with a wind of %s at the pipe when it froze shut; since the record began it had averaged %s, with %s at the coldest."
	causeAirSame   = "The air was at %s with a wind of %s at the pipe when it froze shut, and had been as cold since the warm water."
	causeSpell     = "It had been freezing for %s, at %s on average."
	causeGround    = "Away from the pipe the ground at its depth, %s down, was at %s; frost reached %s%s."
	causeSheltered = "What surrounds the pipe there was at %s."
	causeSnow      = ", with %s of snow on the ground there"
	causeNoSnow    = ", with no snow on the ground there"

	causeReliefNone    = "There is no relief opening."
	causeReliefBlocked = "Snow or ice stood over every relief opening."
	causeReliefRuns    = "The relief opening was running already."
	causeReliefDry     = "The relief opening was clear and had not had to run."
	causeReliefPartly  = "Snow stood over part of the relief opening."
	causeReliefBefore  = "The relief opening was clear of the snow by %s."
	causeDuring        = "While it was shut, for %s, the pump was called on %s: %s."
	causeDuringNone    = "The pump did not run while it was shut, for %s."
	causeThroughRelief = "%s left through the relief opening"
	causeOverRim       = "%s came out of the top of the standpipe, beside the house"
	causeStayed        = "%s stayed in the basin or came later"
	causeOtherwise     = "nothing left before the ice"

	causePocket       = "The rock pit was %s full, and the soil took %s of it a day."
	causePocketFrozen = "The rock pit was %s full, with %s of its water frozen: it took in and drained little or nothing."

	seenAgrees  = "You saw %s %s. In the simulation %s %s, %s."                               // what, time, event, time, how far
	seenNever   = "You saw %s %s. In the simulation that never happened."                     // what, time
	seenOutside = "You saw %s %s, which lies outside the weather record: nothing to compare." // what, time
	seenHeld    = "You saw %s %s. So it was in the simulation."
)

// Where something reaches along the line.
const (
	reachBetween  = "between %s and %s from the wall"
	reachFromWall = "from the wall out to %s"
)

// barrierWords says, by barrier, why water stood there, with the distance from the wall to the barrier in %s where one is
// told.
var barrierWords = map[sim.Barrier]string{
	sim.BarrierSag:     "because the pipe sags there and rises again towards %s from the wall",
	sim.BarrierGrade:   "because the pipe rises towards %s from the wall and water cannot run off",
	sim.BarrierOutlet:  "because the outlet, %s from the wall, lies no lower",
	sim.BarrierLid:     "because the lid at the end, %s from the wall, lies higher and no slot drains the pipe below it",
	sim.BarrierPocket:  "because the rock pit at the end was full, so that the slot could not drain the line",
	sim.BarrierSlot:    "because ice had covered the slot that drains the line",
	sim.BarrierSlow:    "because the slot had not drained the line yet",
	sim.BarrierPlug:    "because ice shut the line farther on, %s from the wall",
	sim.BarrierEnd:     "because ice on the ground had shut the line's end",
	sim.BarrierValve:   "because the check valve keeps it from running back to the basin",
	sim.BarrierLaid:    "nearly all of it ice that passing water had left on the pipe little by little",
	sim.BarrierWritten: "because the layout says that it stood there",
}

// layerWords names layers within a sentence.
var layerWords = map[string]string{
	sim.LayerWall: "the wall of the pipe", sim.LayerSoil: "the soil on top of the pipe", sim.LayerAir: "the air along the pipe",
	sim.LayerCover: "what covers the ground, with the air over it,", sim.LayerSnow: "the snow",
}

// seenStates and seenEvents say what an owner saw, and what the simulation has of that kind.
var (
	seenStates = map[string]string{"shut": "the line frozen shut", "open": "the line open", "relief": "the relief opening running", "wet-floor": "the basement floor wet"}
	seenEvents = map[string]string{"shut": "the line froze shut", "open": "the line opened", "relief": "the relief opening ran", "wet-floor": "the floor first got wet"}
)

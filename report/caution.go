package report

// Caution stands below every verdict and is never left out.
const Caution = "A simulation built on your numbers and our guesses, not an inspection or a promise. " +
	"Water in the basement: stay out of it, and away from pump, cord and panel, until the power is off. " +
	"Never thaw a pipe with a flame. Relief water makes ice where people walk, drive or climb steps, and can run back to the house. " +
	"Never join the sanitary sewer. A plugged line may be under pressure: do not cut or unscrew it. " +
	"Heating cable only if listed for the pipe, on a GFCI circuit. " +
	"Local codes and licensed practice come first; have buried utilities marked before digging."

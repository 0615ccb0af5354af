package check

// rules is the table: one row a rule, in the order in which they are run.
// Outline first, because nothing can be measured from one that is broken; the
// words on waivers last, because they need to know what was found.
var rules []*Check

func init() {
	rules = []*Check{
		outlineBroken,
		rulesUnknown,
		openingOutside,
		openingsOverlap,
		edgeDistance,
		boltSpacing,
		leastWeb,
		smallestHole,
		smallestSlot,
		tabSlotGap,
		saddleGap,
		shortEdge,
		insideCorner,
		partTooSmall,
		narrowNeck,
		bossLost,
		boreTolerance,
		gussetToe,
		gussetSnipe,
		holeToWeld,
		jointGap,
		sleeveFit,
		boltLength,
		coatingGap,
		tabWall,
		materialRange,
		loadUnclear,
		boltShear,
		boltTension,
		boltInteraction,
		bearing,
		tearOut,
		netSection,
		blockShear,
		pinPlate,
		boltGroup,
		weldStrength,
		weldSize,
		weldLineBending,
		sectionBending,
		freeEdge,
		fatigue,
		waiverRefused,
		waiverUnused,
	}
}

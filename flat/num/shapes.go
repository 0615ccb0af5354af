package num

// OnEdge is how far (mm) a place may lie from an edge and still be meant as on
// it: people write places to 0.01 mm or 0.001 in, and edges that run aslant pass
// beside what they write by less than twice that.
const OnEdge = 0.05

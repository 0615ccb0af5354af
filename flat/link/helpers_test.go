package link

import "math"

func v3(x, y, z float64) Vec { return Vec{X: x, Y: y, Z: z} }

func deg(a float64) float64 { return a * math.Pi / 180 }

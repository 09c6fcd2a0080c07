// Integrals of smooth functions to nearly all digits.

/**
 * Integral of a function over a finite interval, to a relative error of about 1e-14 where the integrand has one sign.
 *
 * Panels of 16 points are halved until both halves agree with the whole. A narrow peak can be missed: the caller cuts the
 * interval where the integrand turns or is negligible and gives every such point.
 *
 * @param points ends of the interval and the cuts between them, ascending
 *
 * Source: Gauss–Legendre quadrature; nodes and weights by Newton's method on the Legendre polynomial.
 */
export function integrate(integrand: (x: number) => number, points: number[]): number {
  const panels: Panel[] = []
  let size = 0
  for (const [i, to] of points.entries()) {
    const from = points[i - 1]
    if (from === undefined || from === to) continue
    const value = panelSum(integrand, from, to)
    panels.push({ from, to, value, halvings: 0 })
    size += Math.abs(value)
  }
  let total = 0
  for (let panel = panels.pop(); panel; panel = panels.pop()) {
    const { from, to, value, halvings } = panel
    const middle = (from + to) / 2
    const left = panelSum(integrand, from, middle)
    const right = panelSum(integrand, middle, to)
    size += Math.max(0, Math.abs(left + right) - Math.abs(value))
    if (halvings === 40 || Math.abs(left + right - value) <= 1e-14 * size) total += left + right
    else
      panels.push(
        { from, to: middle, value: left, halvings: halvings + 1 },
        { from: middle, to, value: right, halvings: halvings + 1 },
      )
  }
  return total
}

/** A point of a panel and what the integrand there counts. */
export type Node = { readonly x: number; readonly weight: number }

/** The 16 points of one panel: for integrands that are smooth over it, and for sums of many of them at the same points. */
export function nodesBetween(from: number, to: number): Node[] {
  const middle = (from + to) / 2
  const half = (to - from) / 2
  return nodes.flatMap((node, i) => [
    { x: middle - half * node, weight: half * weights[i]! },
    { x: middle + half * node, weight: half * weights[i]! },
  ])
}

type Panel = { from: number; to: number; value: number; halvings: number }

function panelSum(integrand: (x: number) => number, from: number, to: number): number {
  const middle = (from + to) / 2
  const half = (to - from) / 2
  let total = 0
  for (let i = 0; i < nodes.length; i++) {
    const offset = half * nodes[i]!
    total += weights[i]! * (integrand(middle - offset) + integrand(middle + offset))
  }
  return total * half
}

/** Positive roots of the Legendre polynomial of degree 16 and their weights. */
const nodes: number[] = []
const weights: number[] = []
for (let i = 0; i < 8; i++) {
  let x = Math.cos((Math.PI * (i + 0.75)) / 16.5)
  let slope = 0
  for (let step = 0; step < 8; step++) {
    const polynomial = legendre(x)
    slope = polynomial.slope
    x -= polynomial.value / slope
  }
  nodes.push(x)
  weights.push(2 / ((1 - x * x) * slope * slope))
}

function legendre(x: number): { value: number; slope: number } {
  let before = 1
  let value = x
  for (let degree = 2; degree <= 16; degree++) {
    const next = ((2 * degree - 1) * x * value - (degree - 1) * before) / degree
    before = value
    value = next
  }
  return { value, slope: (16 * (before - x * value)) / (1 - x * x) }
}

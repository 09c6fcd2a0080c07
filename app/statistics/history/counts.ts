// Sums over the units of many lots at once, whatever their number: for likelihoods, whose terms run over 0, 1, … below each count.
import { type Node, nodesBetween } from '../quadrature.ts'

/** Below this every whole number is a node; from here on a smooth term is integrated, with an error below 1e-14 of the sum. */
const exactBelow = 1024

/**
 * Nodes and weights for Σ over counts Σ over j = 0 … count − 1 of f(j), where f varies no faster than a power of j: a thousand
 * nodes and a few for each count serve counts of ten million.
 *
 * Long runs from p to q are ∫f from p − ½ to q − ½ less (f(q) − f(q − 1) − f(p) + f(p − 1))/24, in panels that at most double.
 *
 * Source: the midpoint form of the Euler–Maclaurin formula; what it leaves out is of the order f‴/500.
 */
export function nodesOfCounts(counts: readonly number[]): Node[] {
  const rising = counts.filter((each) => each > 0).sort((one, other) => one - other)
  const nodes: Node[] = []
  let from = 0
  for (const [index, to] of rising.entries()) {
    const lots = rising.length - index
    const middle = Math.min(to, Math.max(from, exactBelow))
    for (let x = from; x < middle; x++) nodes.push({ x, weight: lots })
    if (to > middle) nodes.push(...run(middle, to).map(({ x, weight }) => ({ x, weight: lots * weight })))
    from = to
  }
  return nodes
}

function run(from: number, to: number): Node[] {
  if (to - from <= 24) return Array.from({ length: to - from }, (_, i) => ({ x: from + i, weight: 1 }))
  const nodes: Node[] = [
    { x: to, weight: -1 / 24 },
    { x: to - 1, weight: 1 / 24 },
    { x: from, weight: 1 / 24 },
    { x: from - 1, weight: -1 / 24 },
  ]
  for (let left = from - 0.5; left < to - 0.5; ) {
    const right = Math.min(to - 0.5, 2 * left)
    nodes.push(...nodesBetween(left, right))
    left = right
  }
  return nodes
}

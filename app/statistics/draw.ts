// The random draw: which units of a lot are tested, from a recorded seed that anybody can draw again.
import { count } from './check.ts'
import { type Hash, sha256 } from './sha256.ts'

/** Name and version of the method; docs/draw.md says the whole of it. Any change of the picks is a new version. */
export const drawMethod = 'cordsift-draw-1'

/** What a draw is made of; seed and both numbers together fix every unit. */
export type RandomDraw = { lotSize: number; sampleSize: number; seed: string }

/** Largest lot a draw is made from: the marks of the units taken then need about one megabyte. */
const largestLotDrawn = 10_000_000

/** Counters up to which a repeated unit is skipped, at the least; twice the lot where that is more. */
const skippingCounters = 2_000_000

/**
 * Draws units of a lot without replacement, each sample of that size being equally likely over the seeds.
 *
 * To repeat it by hand: for i = 1, 2, 3 … write the seed, a comma and i in decimal, take the SHA-256 of that text as
 * one whole number h (256 bits, most significant first), and the unit is h mod N, plus 1. A unit that was picked
 * before is skipped. That is the whole published method, and all of it for every lot up to 100,000 units in practice:
 *
 *     i = 0; units = []
 *     while len(units) < n:
 *         i = i + 1
 *         h = int(sha256((seed + ',' + str(i)).encode('utf-8')).hexdigest(), 16)
 *         if i <= max(2000000, 2 * N): unit = h % N + 1
 *         else: left = [u for u in range(1, N + 1) if u not in units]; unit = left[h % len(left)]
 *         if unit not in units: units.append(unit)
 *
 * The `else` ends the wait for the last units of a huge lot: by skipping alone all of 1,000,000 units would take 14
 * million counters. It depends on the counter and not on n, so a larger sample always extends a smaller one of the
 * same seed and lot: the second stage of a double plan is the next units of the same draw, and so are the reserves.
 *
 * @param lotSize units in the lot, numbered from 1, 1 ≤ N ≤ 10,000,000
 * @param sampleSize units to draw, 0 ≤ n ≤ N
 * @param seed text fixed and recorded after the plan is frozen (24 dice digits or 128 random bits), not empty
 * @param hash SHA-256 of a text in UTF-8, where the machine has a faster one than the engine's own
 * @returns n different unit numbers in the order drawn
 * @throws RangeError that names the argument out of range
 *
 * Source: R. L. Rivest, reference procedure for drawing an audit sample, 14 Nov 2011; its published picks are the
 * test. The remainder of 2^256 by N favours low units by less than 1e-70. The last line of the method is our own.
 *
 * @example drawUnits({ lotSize: 876, sampleSize: 3, seed: '3546311556112163624615351222' }) // [740, 180, 264]
 */
export function drawUnits({ lotSize, sampleSize, seed }: RandomDraw, hash: Hash = sha256): number[] {
  count('lotSize', lotSize, 1, largestLotDrawn)
  count('sampleSize', sampleSize, 0, lotSize)
  if (seed === '') throw new RangeError('seed must be a text of at least one character, not empty')

  const lastSkipping = Math.max(skippingCounters, 2 * lotSize)
  const taken = new Uint8Array(Math.ceil((lotSize + 1) / 8))
  const units = new Array<number>(sampleSize) // at its full length at once: grown one by one, ten million take four times the room
  let drawn = 0
  let counter = 0
  while (drawn < sampleSize && counter < lastSkipping) {
    counter++
    const unit = pick(hash(`${seed},${counter}`), lotSize) + 1
    if (isMarked(taken, unit)) continue
    mark(taken, unit)
    units[drawn++] = unit
  }
  if (drawn < sampleSize) drawFromTheRest({ lotSize, seed, units, taken, hash }, { drawn, counter })
  return units
}

type Rest = { lotSize: number; seed: string; units: number[]; taken: Uint8Array; hash: Hash }

/** Fills the units from the place `drawn` on, with the values after `counter`. */
function drawFromTheRest({ lotSize, seed, units, taken, hash }: Rest, from: { drawn: number; counter: number }): void {
  const left = new Int32Array(lotSize - from.drawn)
  let found = 0
  for (let unit = 1; unit <= lotSize; unit++) if (!isMarked(taken, unit)) left[found++] = unit
  const ranks = rankTree(left.length)
  for (let drawn = from.drawn, { counter } = from; drawn < units.length; ) {
    counter++
    const rank = pick(hash(`${seed},${counter}`), lotSize - drawn)
    const unit = left[takeRank(ranks, rank)]
    if (unit !== undefined) units[drawn++] = unit
  }
}

/** The remainder of one SHA-256 value, from 0 to `choices` − 1: word by word, below 10,000,000 · 2^32 and so exact in a double. */
function pick(words: Iterable<number>, choices: number): number {
  let remainder = 0
  for (const word of words) remainder = (remainder * 2 ** 32 + word) % choices
  return remainder
}

function isMarked(marks: Uint8Array, unit: number): boolean {
  return (((marks[unit >> 3] ?? 0) >> (unit & 7)) & 1) === 1
}

function mark(marks: Uint8Array, unit: number): void {
  marks[unit >> 3] = (marks[unit >> 3] ?? 0) | (1 << (unit & 7))
}

/** A Fenwick tree of ones: how many places are still left below each, found and taken in logarithmic time. */
function rankTree(size: number): Int32Array {
  const tree = new Int32Array(size + 1)
  for (let node = 1; node <= size; node++) tree[node] = node & -node
  return tree
}

/** Takes the place of this rank (from 0) among those left, and returns its index. */
function takeRank(tree: Int32Array, rank: number): number {
  let node = 0
  let before = rank
  for (let step = 2 ** Math.floor(Math.log2(tree.length)); step >= 1; step /= 2) {
    const next = node + step
    const inside = tree[next]
    if (inside === undefined) continue
    if (inside > before) tree[next] = inside - 1
    else {
      node = next
      before -= inside
    }
  }
  return node
}

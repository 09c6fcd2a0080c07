// Which counts keep a plan undecided, and in what share of all orders of the units the plan gets that far.
import { density } from '../distributions/hypergeometric.ts'
import type { Stage, Stages } from './plan.ts'

/** After a stage: `share[i]` of the orders in which `from + i` were found have met no verdict yet. */
export type Undecided = { readonly tested: number; readonly from: number; readonly share: Float64Array }

/** Before any test: nothing found, nothing decided. */
const start: Undecided = { tested: 0, from: 0, share: Float64Array.of(1) }

/** A density so far below the sum changes none of its digits, nor do all those beyond it. */
const negligible = 1e-24

/**
 * What is undecided before each stage, and after the last one (nothing).
 *
 * Given how many were found so far, every order of the tested units is equally likely whatever the quality of lot or
 * process. So the share of orders that met no verdict belongs to the plan alone, and the chance to stand undecided at
 * `found` after a stage is share × density(found), for every lot and every process. All terms are positive: nothing cancels.
 */
export function undecidedBefore(plan: Stages): readonly Undecided[] {
  const known = remembered.get(plan)
  if (known) return known
  const passages = [start]
  const room = roomFor()
  let before = start
  for (const stage of plan.stages) {
    before = passed(before, stage, room)
    passages.push(before)
  }
  remembered.set(plan, passages)
  return passages
}

/** A plan never changes, and is asked for hundreds of qualities: its passages are kept as long as the plan itself. */
const remembered = new WeakMap<Stages, readonly Undecided[]>()

/** One way to end: of the orders in which `found` turn up in `tested` units, `share` end the plan just there. */
export type Ending = { readonly tested: number; readonly found: number; readonly share: number }

/** The ends of a stage, by verdict. */
export type Endings = { readonly accepting: readonly Ending[]; readonly rejecting: readonly Ending[] }

/**
 * The ends of each stage that is of one unit more: they are few, however many counts are undecided before it, and the
 * whole of the stage is known from them. A stage of several units has none here.
 */
export function endingsOf(plan: Stages): readonly (Endings | undefined)[] {
  const known = rememberedEndings.get(plan)
  if (known) return known
  const passages = undecidedBefore(plan)
  const endings = plan.stages.map((stage, index) => {
    const before = passages[index]!
    return stage.sampleSize - before.tested === 1 ? endingsAfterOne(before, stage) : undefined
  })
  rememberedEndings.set(plan, endings)
  return endings
}

const rememberedEndings = new WeakMap<Stages, readonly (Endings | undefined)[]>()

function endingsAfterOne(before: Undecided, stage: Stage): Endings {
  const { sampleSize: tested, acceptanceNumber, rejectionNumber } = stage
  const most = before.from + before.share.length
  return {
    accepting: endsBetween(before, tested, before.from, Math.min(acceptanceNumber, most)),
    rejecting: endsBetween(before, tested, Math.max(before.from, rejectionNumber), most),
  }
}

/**
 * The ends at which each stage accepts; undefined for a first stage of several units, which the law sums by itself. They are few where a
 * plan looks often, and belong to the plan alone: its acceptance of any quality is then a sum over them, without a
 * look at every count that is still undecided.
 */
export function acceptingOf(plan: Stages): readonly (readonly Ending[] | undefined)[] {
  const known = rememberedAccepting.get(plan)
  if (known) return known
  const passages = undecidedBefore(plan)
  const accepting = plan.stages.map(({ sampleSize: tested, acceptanceNumber }, index) => {
    const before = passages[index]!
    if (before === start && tested !== 1) return undefined
    const most = Math.min(acceptanceNumber, before.from + before.share.length - 1 + tested - before.tested)
    return endsOfSeveral(before, tested, most)
  })
  rememberedAccepting.set(plan, accepting)
  return accepting
}

const rememberedAccepting = new WeakMap<Stages, readonly (readonly Ending[] | undefined)[]>()

function endsOfSeveral(before: Undecided, tested: number, most: number): readonly Ending[] {
  const ends: Ending[] = []
  for (const [i, share] of sharesReaching(before, tested, before.from, most).entries())
    if (share > 0) ends.push({ tested, found: before.from + i, share })
  return ends
}

const noEnds: readonly Ending[] = []

function endsBetween(before: Undecided, tested: number, from: number, to: number): readonly Ending[] {
  if (from > to || before.share.length === 0) return noEnds
  const ends: Ending[] = []
  for (let found = from; found <= to; found++) {
    const share = shareAfterOne(found, before)
    if (share > 0) ends.push({ tested, found, share })
  }
  return ends
}

/**
 * Terms that the passages of a plan sum at most, from its numbers alone: for each count that a stage leaves undecided
 * those that the stage before left, or two where the stage is of one unit.
 */
export function stepsOver({ stages }: Stages): number {
  let steps = 0
  let tested = 0
  let counts = 1
  for (const { sampleSize, acceptanceNumber, rejectionNumber } of stages) {
    const left = Math.max(0, Math.min(sampleSize, rejectionNumber - 1) - acceptanceNumber)
    steps += left * (sampleSize - tested === 1 ? 2 : counts)
    tested = sampleSize
    counts = left
  }
  return steps
}

/** Of the orders in which a stage ends with `from`, `from + 1`, … `to` found, the shares that were undecided before it; none if none were. */
export function sharesReaching(before: Undecided, sampleSize: number, from: number, to: number): Float64Array {
  const share = new Float64Array(before.share.length === 0 ? 0 : Math.max(0, to - from + 1))
  if (before === start) return share.fill(1)
  return share.map((_, i) => shareOf(from + i, sampleSize, before))
}

type Room = (length: number) => Float64Array

/** Pieces of a few large arrays: an array of its own for each of ten thousand stages costs more than what stands in it. */
function roomFor(): Room {
  let chunk = new Float64Array(0)
  let used = 0
  return (length) => {
    if (used + length > chunk.length) {
      chunk = new Float64Array(Math.max(length, 8192))
      used = 0
    }
    used += length
    return chunk.subarray(used - length, used)
  }
}

function passed(before: Undecided, { sampleSize, acceptanceNumber, rejectionNumber }: Stage, room: Room): Undecided {
  const most = before.from + before.share.length - 1 + sampleSize - before.tested
  const from = Math.max(acceptanceNumber + 1, before.from)
  const to = Math.min(rejectionNumber - 1, most)
  if (before === start || sampleSize - before.tested !== 1)
    return { tested: sampleSize, from, share: sharesReaching(before, sampleSize, from, to) }
  const share = room(before.share.length === 0 ? 0 : Math.max(0, to - from + 1))
  for (let i = 0; i < share.length; i++) share[i] = shareAfterOne(from + i, before)
  return { tested: sampleSize, from, share }
}

/** Sum over the earlier counts d of share(d) · h(d | N, D, n): from the greatest density outwards, while terms still count. */
function shareOf(found: number, sampleSize: number, before: Undecided): number {
  const { tested: n, from, share } = before
  if (sampleSize - n === 1) return shareAfterOne(found, before)
  const N = sampleSize
  const D = found
  const first = Math.max(from, D - (N - n))
  const last = Math.min(from + share.length - 1, D)
  if (first > last) return 0
  const greatest = Math.min(last, Math.max(first, Math.floor(((n + 1) * (D + 1)) / (N + 2))))
  const middle = density(greatest, { lotSize: N, nonconforming: D, sampleSize: n })
  let total = 0
  for (let d = greatest, term = middle; d <= last && term > total * negligible; d++) {
    total += term * share[d - from]!
    term *= ((D - d) * (n - d)) / ((d + 1) * (N - D - n + d + 1))
  }
  for (let d = greatest, term = middle; d > first && term > total * negligible; d--) {
    term *= (d * (N - D - n + d)) / ((D - d + 1) * (n - d + 1))
    total += term * share[d - 1 - from]!
  }
  return total
}

/** The same after one unit more: of the orders with so many found, found ÷ tested end with a nonconforming unit. */
function shareAfterOne(found: number, { tested, from, share }: Undecided): number {
  const at = found - from
  const same = at >= 0 && at < share.length ? share[at]! : 0
  const less = at > 0 && at <= share.length ? share[at - 1]! : 0
  return (same * (tested + 1 - found) + less * found) / (tested + 1)
}

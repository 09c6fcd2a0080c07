// Units that nobody has to test because testing stops with the unit that reaches the rejection number.
import type { BetaPrior } from '../bounds/posterior.ts'
import { between } from '../check.ts'
import { density } from '../distributions/hypergeometric.ts'
import { nodesOfCounts } from '../history/counts.ts'
import { type LotQuality, lawOfLot } from '../plans/law.ts'
import { type Undecided, undecidedBefore } from '../plans/passage.ts'
import { checkStages, type Stages } from '../plans/plan.ts'
import { chancesIn } from './chances.ts'

/**
 * Units of begun stages that stopping spares on average, in a lot known only as a prior: the average sample size of the
 * finished stages less this is that of `curtailedUnderPrior`, without a walk over every unit.
 *
 * Testing stops with the unit that reaches the rejection number of the running stage, and never early to accept. It supposes
 * that nonconforming units may lie anywhere in the order of testing.
 *
 * @param plan its stages; one that begins with its rejection number found already tests none of its units
 * @param prior a and b from 1e-300 to 1e15
 * @returns units, none for a plan unit by unit
 * @throws RangeError that names the argument, or the stage that is none
 *
 * Formula: of n more units with x nonconforming among them the m-th lies on average at m(n + 1)/(x + 1); summed over x from m on,
 * by what x below m leave, as m is small and n is not.
 *
 * @example unitsSparedUnderPrior({ stages: [{ sampleSize: 48, acceptanceNumber: 0, rejectionNumber: 1 }] }, { a: 1, b: 9 })
 *   // 30.96: of 48 cords 17.04 are tested
 */
export function unitsSparedUnderPrior(plan: Stages, prior: BetaPrior): number {
  checkStages(plan)
  between('prior.a', prior.a, 1e-300, 1e15)
  between('prior.b', prior.b, 1e-300, 1e15)

  return sparedOver(plan, ({ tested, from, share }, stage) => {
    const chances = chancesIn({ tested, from, to: from + share.length - 1 }, prior)
    let spared = 0
    for (let i = 0; i < share.length; i++) {
      const reached = share[i]! * chances[i]!
      const posterior = { a: prior.a + from + i, b: prior.b + (tested - from - i) }
      if (reached > 0)
        spared += reached * sparedOf(stage.more, Math.max(0, stage.rejectionNumber - from - i), posterior)
    }
    return spared
  })
}

/**
 * The same in a lot of known quality.
 *
 * @throws RangeError that names the argument, or the stage that is none
 * @example unitsSparedInLot({ stages: [{ sampleSize: 216, acceptanceNumber: 0, rejectionNumber: 1 }] },
 *   { lotSize: 480, nonconforming: 5 }) // 138.0: of 216 cords 78.0 are tested
 */
export function unitsSparedInLot(plan: Stages, quality: LotQuality): number {
  const law = lawOfLot(quality)
  checkStages(plan, quality.lotSize)

  return sparedOver(plan, ({ tested, from, share }, { more, rejectionNumber }) => {
    let spared = 0
    for (let i = 0; i < share.length; i++) {
      const found = from + i
      const reached = share[i]! * density(found, { ...quality, sampleSize: tested })
      if (reached === 0) continue
      const rest = law.after(tested, found)
      const nth = Math.max(0, rejectionNumber - found)
      spared += reached * (more * rest.moreThan(nth - 1, more) - rest.untilNonconforming(nth, more))
    }
    return Math.max(0, spared)
  })
}

/** A stage of several units that can reject: how many they are, and the rejection number in all. */
type Begun = { more: number; rejectionNumber: number }

function sparedOver(plan: Stages, of: (before: Undecided, stage: Begun) => number): number {
  const passages = undecidedBefore(plan)
  let spared = 0
  for (const [index, { sampleSize, rejectionNumber }] of plan.stages.entries()) {
    const before = passages[index]!
    const more = sampleSize - before.tested
    if (more > 1 && rejectionNumber - before.from <= more) spared += of(before, { more, rejectionNumber })
  }
  return spared
}

/** E(n − T; T ≤ n), T the unit among n with which the `nth` nonconforming one turns up, under a beta prior. */
function sparedOf(n: number, nth: number, { a, b }: BetaPrior): number {
  const few = chancesIn({ tested: n, from: 0, to: Math.min(nth - 1, n) }, { a, b })
  let spared = n - nth * meanReciprocal(n, { a, b })
  for (const [x, chance] of few.entries()) spared -= chance * (n - (nth * (n + 1)) / (x + 1))
  return Math.max(0, spared)
}

/**
 * (n + 1) E(1/(X + 1)) for X beta-binomial: 1 + b/h · (1 − R) with h = a − 1, which holds for a below 1 too, and at 1 as a limit.
 * R is the product of the quotients (b + j)/(b + h + j) over j from 1 to n, each above 0 as a + b is.
 */
function meanReciprocal(n: number, { a, b }: BetaPrior): number {
  const h = a - 1
  const over = (f: (j: number) => number) =>
    nodesOfCounts([n]).reduce((sum, { x, weight }) => sum + weight * f(x + 1), 0)
  if (h === 0) return 1 + b * over((j) => 1 / (b + j))
  return 1 - (b / h) * Math.expm1(over((j) => Math.log1p(-h / (b + h + j))))
}

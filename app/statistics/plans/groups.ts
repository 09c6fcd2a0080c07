// Cord by cord in groups: a sequential plan that looks only when a whole group of units is tested.
import { count, exceeds } from '../check.ts'
import { TooManySteps } from '../steps.ts'
import { fewestUnits, type StagedSearch } from './fewest-units.ts'
import { type Law, lawOfLot } from './law.ts'
import { checkWaldRisks, lineNumbers, sequentialLines } from './lines.ts'
import { outcomesUnder } from './measures.ts'
import { stepsOver, type Undecided, undecidedBefore } from './passage.ts'
import type { LotRisk, Plan, Stage, Stages } from './plan.ts'
import { checkLotRisks } from './single.ts'

/** Units in all groups; longer plans are refused, as those unit by unit are. */
const longest = 10_000

/** Terms that the passages of the looks tried may sum: a few tenths of a second. */
const mostSteps = 2_000_000

/** Units in a group where nobody says otherwise: what one bench tests in an hour or so (common practice, no source). */
export const usualGroup = 30

/**
 * The plan of the fewest groups on Wald's lines that keeps both risks of the lot exactly: a verdict is looked for after every
 * group, by the numbers of the lines there, and falls at the last one at the latest, where the smallest acceptance
 * number between the lines is taken with which both risks are kept. A last group is smaller where the lot ends before.
 *
 * A group must be the next so many picks of one random draw over the whole lot; then the order within a group says nothing, and
 * the plan is one of stages like any other.
 *
 * @param lotSize N ≥ 1 units
 * @param producer 1 ≤ nonconforming < the consumer's (the lines need a share above 0), risk in (0, 1)
 * @param consumer nonconforming below lotSize, risk in (0, 1); both risks together below 1
 * @param groupSize units in a group, from 1; 30 unless it is said
 * @throws RangeError that names the argument out of range, or says that no plan of such groups keeps the risks within 10,000
 *   units; TooManySteps where the qualities are so close that the plans tried would sum more than 2,000,000 terms
 *
 * Source: A. Wald (1947), Sequential Analysis, ch. 5 for the lines and for testing by groups, ch. 3.8 for the truncation (from
 * memory). His risks are approximate; here both are summed over the stages by the hypergeometric law.
 *
 * @example designGroupsForLot({ lotSize: 480, producer: { nonconforming: 5, risk: 0.05 },
 *   consumer: { nonconforming: 24, risk: 0.1 } }).stages.length // 5
 */
export function designGroupsForLot(requirements: {
  lotSize: number
  producer: LotRisk
  consumer: LotRisk
  groupSize?: number
}): Plan {
  const { lotSize, producer, consumer, groupSize = usualGroup } = requirements
  checkLotRisks(requirements)
  checkWaldRisks(requirements)
  count('groupSize', groupSize, 1)

  const share = ({ nonconforming, risk }: LotRisk) => ({ fraction: nonconforming / lotSize, risk })
  const law = ({ nonconforming }: LotRisk) => lawOfLot({ lotSize, nonconforming })
  const search = {
    requirements: { producer: share(producer), consumer: share(consumer) },
    groupSize,
    most: mostUnits(lotSize, groupSize),
    good: law(producer),
    bad: law(consumer),
  }
  return { kind: 'groups', stages: fewestGroups(search) }
}

/** All of the lot, or as many whole groups as a plan may have. */
function mostUnits(lotSize: number, groupSize: number): number {
  return lotSize <= longest ? lotSize : Math.max(1, Math.floor(longest / groupSize)) * groupSize
}

type Search = StagedSearch<Law> & { groupSize: number }

/** Looks are prepared twice as far each time, so that a plan that ends early is found without those far behind it. */
function fewestGroups(search: Search): readonly Stage[] {
  const { requirements, groupSize, most, good, bad } = search
  const fewest = fewestUnits(requirements, most, { good, bad })
  if (fewest === undefined) throw none(search)
  const mostGroups = Math.ceil(most / groupSize)
  let from = Math.ceil(fewest / groupSize)
  let steps = 0
  for (let groups = from; ; groups = Math.min(mostGroups, 2 * groups)) {
    const onLines = linesOf(search, groups)
    steps += stepsOver(onLines)
    if (steps > mostSteps)
      throw new TooManySteps(`consumer and producer must differ more: the search takes more than ${mostSteps} steps`)
    const found = endedEarliest(onLines, from, search)
    if (found) return found
    if (groups === mostGroups) throw none(search)
    from = groups + 1
  }
}

function none({ groupSize, most }: Search): RangeError {
  return new RangeError(
    `risks must be ones that groups of ${groupSize} keep within ${most} units; take the single plan instead`,
  )
}

/** The looks on the lines, without the number that must decide at the last of them. */
function linesOf({ requirements, groupSize, most }: Search, groups: number): Stages {
  const lines = sequentialLines(requirements)
  const stages = Array.from({ length: groups }, (_, index) => {
    const sampleSize = Math.min(most, (index + 1) * groupSize)
    return { sampleSize, ...lineNumbers(lines, sampleSize) }
  })
  return { stages }
}

/** Of these looks, from one of them on, the first at which a number between the lines keeps both risks when testing ends there. */
function endedEarliest(onLines: Stages, from: number, search: Search): readonly Stage[] | undefined {
  const { good, bad } = search
  const passages = undecidedBefore(onLines)
  const ofGood = outcomesUnder(onLines, good)
  const ofBad = outcomesUnder(onLines, bad)
  let rejected = 0
  let accepted = 0
  for (const [index, stage] of onLines.stages.entries()) {
    rejected += ofGood[index]!.rejected
    accepted += ofBad[index]!.accepted
    if (index + 1 < from) continue
    const acceptanceNumber = lastNumber(stage, passages[index + 1]!, { rejected, accepted }, search)
    if (acceptanceNumber === undefined) continue
    return [...onLines.stages.slice(0, index), { ...stage, acceptanceNumber, rejectionNumber: acceptanceNumber + 1 }]
  }
  return undefined
}

/**
 * The smallest number between the lines that keeps both risks as the last: to the good lots that the lines have rejected come those
 * above it, to the bad ones that they have accepted those up to it.
 */
function lastNumber(
  { sampleSize, acceptanceNumber, rejectionNumber }: Stage,
  { from, share }: Undecided,
  decided: { rejected: number; accepted: number },
  { requirements: { producer, consumer }, good, bad }: Search,
): number | undefined {
  const chanceOf = (law: Law, least: number, most: number) => {
    let sum = 0
    for (let found = Math.max(from, least); found <= Math.min(most, from + share.length - 1); found++)
      sum += share[found - from]! * law.density(found, sampleSize)
    return sum
  }
  for (let c = Math.max(0, acceptanceNumber); c < Math.min(rejectionNumber, sampleSize); c++) {
    if (exceeds(decided.rejected + chanceOf(good, c + 1, rejectionNumber), producer.risk)) continue
    return exceeds(decided.accepted + chanceOf(bad, 0, c), consumer.risk) ? undefined : c
  }
  return undefined
}

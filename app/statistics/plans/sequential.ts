// Sequential plans: a verdict may fall after every unit, by Wald's two lines, and must fall at the truncation.
import { count, exceeds } from '../check.ts'
import { TooManySteps } from '../steps.ts'
import { type Counts, fewestUnits } from './fewest-units.ts'
import { lawOfLot, lawOfProcess } from './law.ts'
import { checkWaldRisks, lineNumbers, sequentialLines } from './lines.ts'
import type { LotRisk, Plan, ProcessRisk } from './plan.ts'
import { checkLotRisks, checkProcessRisks } from './single.ts'

/** A sequential plan has a stage for every unit; longer ones than this are refused. */
const longest = 10_000

/** The search for a plan that may have to walk through more counts than this is refused before it begins. */
const mostSteps = 2_000_000

/** Where a sequential plan must end, and the acceptance number that then decides. */
export type Truncation = { readonly truncation: number; readonly acceptanceNumber: number }

/**
 * The sequential plan of Wald's lines for two risks of a process, a stage for each unit up to the truncation.
 *
 * Its exact operating characteristic and average sample size are those of its stages; Wald's own formulas are
 * approximations that ignore how far the count steps over a line, and the truncation.
 *
 * @param producer,consumer as in `sequentialLines`
 * @param truncation last unit, 1 to 10,000
 * @param acceptanceNumber decides at the truncation; it must lie between the lines there
 * @throws RangeError that names the argument out of range
 * @example sequentialPlan({ producer: { fraction: 0.01, risk: 0.05 }, consumer: { fraction: 0.1, risk: 0.1 },
 *   truncation: 100, acceptanceNumber: 4 }) // accepts first at the 24th unit, rejects two up to the 19th
 */
export function sequentialPlan(requirements: { producer: ProcessRisk; consumer: ProcessRisk } & Truncation): Plan {
  const { truncation, acceptanceNumber } = requirements
  const lines = sequentialLines(requirements)
  checkWaldRisks(requirements)
  count('truncation', truncation, 1, longest)
  const end = lineNumbers(lines, truncation)
  count('acceptanceNumber', acceptanceNumber, end.acceptanceNumber, end.rejectionNumber - 1)

  const stages = []
  for (let sampleSize = 1; sampleSize < truncation; sampleSize++)
    stages.push({ sampleSize, ...lineNumbers(lines, sampleSize) })
  stages.push({ sampleSize: truncation, acceptanceNumber, rejectionNumber: acceptanceNumber + 1 })
  return { kind: 'sequential', stages }
}

/**
 * The sequential plan for a process with the earliest truncation of Wald's lines, and then the smallest last acceptance
 * number, that keep both risks exactly.
 *
 * @param producer,consumer as in `sequentialLines`, the risks together below 1
 * @throws RangeError that names the argument out of range, or says that the lines do not keep the risks within 10,000 units; TooManySteps
 *   where the qualities are so close that the search could take more than 2,000,000 steps
 * @example designSequentialForProcess({ producer: { fraction: 0.01, risk: 0.05 }, consumer: { fraction: 0.1, risk: 0.1 } })
 *   // ends at unit 71 at the latest, then with acceptance number 2
 */
export function designSequentialForProcess(requirements: { producer: ProcessRisk; consumer: ProcessRisk }): Plan {
  const { producer, consumer } = requirements
  checkProcessRisks(requirements)
  checkWaldRisks(requirements)

  const quality = ({ fraction }: ProcessRisk) => ({ ...lawOfProcess(fraction), next: () => fraction })
  return sequentialPlan({ ...requirements, ...earliest(requirements, longest, [quality(producer), quality(consumer)]) })
}

/**
 * The same for a lot in hand, with the lines of the two shares of the lot and the hypergeometric law.
 *
 * @param lotSize N ≥ 1 units
 * @param producer 1 ≤ nonconforming < the consumer's (the lines need a share above 0), risk in (0, 1)
 * @param consumer nonconforming below lotSize, risk in (0, 1)
 */
export function designSequentialForLot(requirements: { lotSize: number; producer: LotRisk; consumer: LotRisk }): Plan {
  const { lotSize: N, producer, consumer } = requirements
  checkLotRisks(requirements)
  checkWaldRisks(requirements)

  const share = ({ nonconforming, risk }: LotRisk) => ({ fraction: nonconforming / N, risk })
  const shares = { producer: share(producer), consumer: share(consumer) }
  const quality = ({ nonconforming: D }: LotRisk) => ({
    ...lawOfLot({ lotSize: N, nonconforming: D }),
    next: (tested: number, found: number) => Math.max(0, D - found) / (N - tested),
  })
  return sequentialPlan({
    ...shares,
    ...earliest(shares, Math.min(N, longest), [quality(producer), quality(consumer)]),
  })
}

/** A quality as the walk sees it: the chance that the next unit is nonconforming, and the tails of so many units. */
type Quality = Counts & { next(tested: number, found: number): number }

type Risks = { producer: ProcessRisk; consumer: ProcessRisk }

/** The chances of each count that is still undecided, those from `from` to `to`, and of the verdicts so far. */
type Path = {
  readonly quality: Quality
  readonly undecided: Float64Array
  from: number
  to: number
  accepted: number
  rejected: number
}

/**
 * Counts that the search for a sequential plan of at most `most` units may have to walk through, for both qualities: those
 * between the lines, unit by unit.
 */
export function stepsToDesignSequential(requirements: Risks, most: number): number {
  const { acceptIntercept, rejectIntercept } = sequentialLines(requirements)
  return 2 * most * Math.min(most, Math.ceil(acceptIntercept + rejectIntercept) + 1)
}

function earliest(requirements: Risks, most: number, [goodQuality, badQuality]: [Quality, Quality]): Truncation {
  const first = fewestUnits(requirements, most, { good: goodQuality, bad: badQuality })
  if (first === undefined) throw tooFew(most)
  const steps = stepsToDesignSequential(requirements, most)
  if (steps > mostSteps)
    throw new TooManySteps(
      `consumer and producer must differ more: the search takes ${steps} steps, above ${mostSteps}`,
    )
  const lines = sequentialLines(requirements)
  const width = lineNumbers(lines, most).rejectionNumber + 2
  const good = start(goodQuality, width)
  const bad = start(badQuality, width)
  for (let tested = 1; tested <= most; tested++) {
    const numbers = lineNumbers(lines, tested)
    test(good, tested - 1)
    test(bad, tested - 1)
    if (tested >= first) {
      const acceptanceNumber = leastKept(good, numbers, requirements.producer.risk)
      if (
        acceptanceNumber < numbers.rejectionNumber &&
        !exceeds(chanceToAccept(bad, acceptanceNumber), requirements.consumer.risk)
      )
        return { truncation: tested, acceptanceNumber }
    }
    decide(good, numbers)
    decide(bad, numbers)
  }
  throw tooFew(most)
}

function tooFew(most: number): RangeError {
  return new RangeError(`risks must be ones that Wald's lines keep within ${most} units; take the single plan instead`)
}

function start(quality: Quality, width: number): Path {
  const undecided = new Float64Array(width)
  undecided[0] = 1
  return { quality, undecided, from: 0, to: 0, accepted: 0, rejected: 0 }
}

/** One unit more, in place from the greatest count down. */
function test(path: Path, tested: number): void {
  const { undecided, quality, from } = path
  path.to += 1
  for (let found = path.to; found >= from; found--) {
    const stays = undecided[found]! * (1 - quality.next(tested, found))
    undecided[found] = stays + (found > from ? undecided[found - 1]! * quality.next(tested, found - 1) : 0)
  }
}

type Numbers = { readonly acceptanceNumber: number; readonly rejectionNumber: number }

function decide(path: Path, { acceptanceNumber, rejectionNumber }: Numbers): void {
  const { undecided } = path
  for (; path.from <= Math.min(path.to, acceptanceNumber); path.from++) {
    path.accepted += undecided[path.from]!
    undecided[path.from] = 0
  }
  for (; path.to >= Math.max(path.from, rejectionNumber); path.to--) {
    path.rejected += undecided[path.to]!
    undecided[path.to] = 0
  }
}

/** Smallest acceptance number between the lines with which the producer's risk is kept; the rejection number if none is. */
function leastKept(path: Path, { acceptanceNumber, rejectionNumber }: Numbers, risk: number): number {
  const { undecided } = path
  let rejected = path.rejected
  for (let found = path.to; found >= rejectionNumber; found--) rejected += undecided[found]!
  let c = rejectionNumber - 1
  while (c > acceptanceNumber && c >= 0 && !exceeds(rejected + undecided[c]!, risk)) {
    rejected += undecided[c]!
    c--
  }
  return exceeds(rejected, risk) ? rejectionNumber : c
}

function chanceToAccept({ accepted, undecided, from }: Path, acceptanceNumber: number): number {
  let total = accepted
  for (let found = from; found <= acceptanceNumber; found++) total += undecided[found]!
  return total
}

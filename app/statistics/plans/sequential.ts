// Sequential plans: a verdict may fall after every unit, by Wald's two lines, and must fall at the truncation.
import { count, exceeds } from '../check.ts'
import { checkWaldRisks, lineNumbers, sequentialLines } from './lines.ts'
import type { LotRisk, Plan, ProcessRisk } from './plan.ts'
import { checkLotRisks, checkProcessRisks } from './single.ts'

/** A sequential plan has a stage for every unit; longer ones than this are refused. */
const longest = 10_000

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
export function sequentialPlan(wish: { producer: ProcessRisk; consumer: ProcessRisk } & Truncation): Plan {
  const { truncation, acceptanceNumber } = wish
  const lines = sequentialLines(wish)
  checkWaldRisks(wish)
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
 * @throws RangeError that names the argument out of range, or says that the lines do not keep the risks within 10,000 units
 * @example designSequentialForProcess({ producer: { fraction: 0.01, risk: 0.05 }, consumer: { fraction: 0.1, risk: 0.1 } })
 *   // ends at unit 71 at the latest, then with acceptance number 2
 */
export function designSequentialForProcess(wish: { producer: ProcessRisk; consumer: ProcessRisk }): Plan {
  const { producer, consumer } = wish
  checkProcessRisks(wish)
  checkWaldRisks(wish)

  return sequentialPlan({ ...wish, ...earliest(wish, longest, [() => producer.fraction, () => consumer.fraction]) })
}

/**
 * The same for a lot in hand, with the lines of the two shares of the lot and the hypergeometric law.
 *
 * @param lotSize N ≥ 1 units
 * @param producer 1 ≤ nonconforming < the consumer's (the lines need a share above 0), risk in (0, 1)
 * @param consumer nonconforming below lotSize, risk in (0, 1)
 */
export function designSequentialForLot(wish: { lotSize: number; producer: LotRisk; consumer: LotRisk }): Plan {
  const { lotSize: N, producer, consumer } = wish
  checkLotRisks(wish)
  checkWaldRisks(wish)

  const share = ({ nonconforming, risk }: LotRisk) => ({ fraction: nonconforming / N, risk })
  const shares = { producer: share(producer), consumer: share(consumer) }
  const next = (D: number) => (tested: number, found: number) => Math.max(0, D - found) / (N - tested)
  const both: [Next, Next] = [next(producer.nonconforming), next(consumer.nonconforming)]
  return sequentialPlan({ ...shares, ...earliest(shares, Math.min(N, longest), both) })
}

/** Chance that the next unit is nonconforming when so many of the tested ones were. */
type Next = (tested: number, found: number) => number

/** The chances of each count that is still undecided, from `from` up, and of the verdicts so far. */
type Path = { readonly next: Next; undecided: Float64Array; accepted: number; rejected: number }

function earliest(
  wish: { producer: ProcessRisk; consumer: ProcessRisk },
  most: number,
  [goodNext, badNext]: [Next, Next],
): Truncation {
  const lines = sequentialLines(wish)
  const width = lineNumbers(lines, most).rejectionNumber + 1
  const good = start(goodNext, width)
  const bad = start(badNext, width)
  for (let tested = 1; tested <= most; tested++) {
    const numbers = lineNumbers(lines, tested)
    test(good, tested - 1)
    test(bad, tested - 1)
    const acceptanceNumber = leastKept(good, numbers, wish.producer.risk)
    if (
      acceptanceNumber < numbers.rejectionNumber &&
      !exceeds(chanceToAccept(bad, acceptanceNumber), wish.consumer.risk)
    )
      return { truncation: tested, acceptanceNumber }
    decide(good, numbers)
    decide(bad, numbers)
  }
  throw new RangeError(`risks must be ones that Wald's lines keep within ${most} units; take the single plan instead`)
}

function start(next: Next, width: number): Path {
  const undecided = new Float64Array(width + 1)
  undecided[0] = 1
  return { next, undecided, accepted: 0, rejected: 0 }
}

/** One unit more, in place from the greatest count down. */
function test({ next, undecided }: Path, tested: number): void {
  for (let found = Math.min(tested + 1, undecided.length - 1); found >= 0; found--) {
    const stays = undecided[found]! * (1 - next(tested, found))
    undecided[found] = stays + (found > 0 ? undecided[found - 1]! * next(tested, found - 1) : 0)
  }
}

type Numbers = { readonly acceptanceNumber: number; readonly rejectionNumber: number }

function decide(path: Path, { acceptanceNumber, rejectionNumber }: Numbers): void {
  const { undecided } = path
  for (let found = 0; found < undecided.length; found++) {
    if (found > acceptanceNumber && found < rejectionNumber) continue
    if (found <= acceptanceNumber) path.accepted += undecided[found]!
    else path.rejected += undecided[found]!
    undecided[found] = 0
  }
}

/** Smallest acceptance number between the lines with which the producer's risk is kept; the rejection number if none is. */
function leastKept(path: Path, { acceptanceNumber, rejectionNumber }: Numbers, risk: number): number {
  let rejected = path.rejected
  for (let found = path.undecided.length - 1; found >= rejectionNumber; found--) rejected += path.undecided[found]!
  let c = rejectionNumber - 1
  while (c > acceptanceNumber && c >= 0 && !exceeds(rejected + path.undecided[c]!, risk)) {
    rejected += path.undecided[c]!
    c--
  }
  return exceeds(rejected, risk) ? rejectionNumber : c
}

function chanceToAccept({ accepted, undecided }: Path, acceptanceNumber: number): number {
  let total = accepted
  for (let found = 0; found <= Math.min(acceptanceNumber, undecided.length - 1); found++) total += undecided[found]!
  return total
}

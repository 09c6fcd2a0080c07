// The percentage question for a supplier, an item or everything: one page that a buyer can put before a supplier.
import { eq } from 'drizzle-orm'
import type { Db } from '../../../db/client.ts'
import { items, suppliers } from '../../../db/schema/register.ts'
import { Refusal } from '../../kit/refusal.ts'
import { fractionOfCords, fractionOfTerminations } from '../../statistics/clustering/terminations.ts'
import { type CountedLot, countedLots, type WhichLots } from '../../suppliers/history.ts'
import { knownWhole, percentageOf, type ReplaySum, replayedIn } from '../../suppliers/percentage.ts'
import { type Effort, effortOf } from './effort.ts'
import { type Remainders, remaindersOf, type SpoolFacts, spoolsOf } from './spools.ts'
import { type Trial, trialOf } from './trial.ts'

export type Scope = { supplier: string | undefined; item: string | undefined }
export type ReportWish = WhichLots & { percent: string; allowed: number }

/** Where the cable is sound: the share of cords, that of terminations behind it, and the line that joins such pairs. */
export type Making = { cords: number; termination: number; points: { termination: number; cords: number }[] }

export type PercentageReport = {
  scope: Scope
  percent: string
  allowed: number
  byPlan: ReplaySum
  afterScreening: ReplaySum
  leftOut: number
  /** all known lots together */
  trial: Trial
  /** against testing every cord: tests not made, and what they would have cost */
  saved: { tests: number; cents: number }
  /** the trial for 1, 2 … 100 percent */
  curve: Trial[]
  effort: Effort | undefined
  /** over the known lots; the share of terminations that explains it where the cable is sound */
  making: Making | undefined
  spools: SpoolFacts
  remainders: Remainders
}

const usualLot = 480
const usualFraction = 0.02

/** Exact over all samples that could have been drawn from each lot tested whole. Throws Refusal where supplier or item is missing. */
export async function percentageReport(db: Db, wish: ReportWish): Promise<PercentageReport> {
  const { percent, allowed } = wish
  const scope = await scopeOf(db, wish)
  const { known, leftOut } = knownWhole(await countedLots(db, wish))
  const trial = trialOf(known, (lot) => percentageOf(lot.size, percent), allowed)
  const spools = await spoolsOf(db, wish)
  const making = makingOf(known)
  const correlation = spools.correlation?.kind === 'estimated' ? spools.correlation.likelihood : undefined
  return {
    scope,
    percent,
    allowed,
    ...replayedIn(known, percent, allowed),
    leftOut,
    trial,
    saved: savedBy(known, percent),
    curve: curveOf(known, allowed),
    effort: effortOf(known, percent, allowed),
    making,
    spools,
    remainders: remaindersOf(usualLot, percentageOf(usualLot, percent), {
      fraction: making && making.cords > 0 ? making.cords : usualFraction,
      correlation,
    }),
  }
}

function curveOf(known: CountedLot[], allowed: number): Trial[] {
  const failing = known.filter((lot) => lot.all.found > 0)
  return Array.from({ length: 100 }, (_, step) =>
    trialOf(failing, (lot) => percentageOf(lot.size, String(step + 1)), allowed),
  )
}

function savedBy(known: CountedLot[], percent: string) {
  let tests = 0
  let cents = 0
  for (const lot of known) {
    const spared = lot.size - percentageOf(lot.size, percent)
    tests += spared
    cents += spared * lot.costTestCents
  }
  return { tests, cents }
}

function makingOf(known: CountedLot[]): Making | undefined {
  const cords = known.reduce((sum, lot) => sum + lot.size, 0)
  if (cords === 0) return undefined
  const share = known.reduce((sum, lot) => sum + lot.all.found, 0) / cords
  const termination = fractionOfTerminations(share)
  const end = Math.min(1, Math.max(0.02, 2 * termination))
  const points = Array.from({ length: 41 }, (_, step) => {
    const at = (end * step) / 40
    return { termination: at, cords: fractionOfCords({ termination: at, cable: 0 }) }
  })
  return { cords: share, termination, points }
}

async function scopeOf(db: Db, { supplierId, itemId }: WhichLots): Promise<Scope> {
  const [supplier] =
    supplierId === undefined ? [] : await db.select().from(suppliers).where(eq(suppliers.id, supplierId))
  const [item] = itemId === undefined ? [] : await db.select().from(items).where(eq(items.id, itemId))
  if (supplierId !== undefined && !supplier) throw new Refusal('missing', `There is no supplier ${supplierId}`)
  if (itemId !== undefined && !item) throw new Refusal('missing', `There is no item ${itemId}`)
  return { supplier: supplier?.name, item: item?.name }
}

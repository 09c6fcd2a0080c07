// How well samples predicted: over all lots that were tested to the last cord, whether the rest was as predicted.
import { type SQL, sql } from 'drizzle-orm'
import type { Db } from '../../db/client.ts'
import { type Run, runOf } from '../kit/task.ts'
import type { SampleCount } from '../lots/rules/progress.ts'
import { unitsInShare } from '../statistics/plans/percentage.ts'
import type { Stage } from '../statistics/plans/plan.ts'
import { isFinished, piecesOf } from './counted.ts'
import { type CountedLot, countedLots } from './counted-lots.ts'
import { type CoverageFacts, type CoverageGroup, coverageTask, type KnownSample } from './coverage-sums.ts'

export type Coverage = {
  /** the sample that the decision to screen rested on, against the rest */
  afterScreening: CoverageGroup
  /** lots tested whole by plan: the first tenth of the draw taken as a sample, against the rest */
  byPlan: CoverageGroup
  /** left out: a cord was missing or could not be tested, so that the whole is not known */
  leftOut: number
}

const share = 0.1
/** The latest lots are enough to judge by, and are read quickly. */
const lotsPlayed = 100

/** All lots of which every cord is known. Screened lots have worse samples than usual, so the two groups stand apart. */
export async function coverageOf(db: Db, run: Run): Promise<Coverage> {
  const finished = (await countedLots(db, {})).filter((lot) => lot.decided && isFinished(lot)).toReversed()
  const known = finished.filter((lot) => lot.notTested + lot.standIns === 0)
  const whole = (lot: CountedLot) => lot.decided?.recorded === lot.size
  const screened = known.filter((lot) => !whole(lot))
  const byPlan = known.filter((lot) => whole(lot) && lot.size > 1).slice(0, lotsPlayed)
  const facts: CoverageFacts = {
    afterScreening: screened.flatMap((lot) => (lot.decided ? [sampleOf(lot, lot.stages, lot.decided)] : [])),
    byPlan: await playedOn(db, byPlan),
  }
  const pieces = piecesOf([...facts.afterScreening, ...facts.byPlan])
  const groups = await runOf(pieces, run)(coverageTask, facts)
  return { ...groups, leftOut: finished.length - known.length }
}

function sampleOf(lot: CountedLot, stages: readonly Stage[], { recorded, found }: SampleCount): KnownSample {
  const { lotId, item, size, all } = lot
  return { lotId, item, size, stages, count: { recorded, found }, foundInAll: all.found }
}

/** The cords of a lot are drawn in random order, whole lots too: the first tenth of them is a random sample. */
async function playedOn(db: Db, lots: CountedLot[]): Promise<KnownSample[]> {
  if (lots.length === 0) return []
  const sizes = new Map(lots.map(({ lotId, size }) => [lotId, Math.min(size - 1, unitsInShare(share, size))]))
  const found = await foundInFirst(db, sizes)
  return lots.map((lot) => {
    const sampleSize = sizes.get(lot.lotId) ?? 0
    const sample = [{ sampleSize, acceptanceNumber: sampleSize, rejectionNumber: sampleSize + 1 }]
    return sampleOf(lot, sample, { recorded: sampleSize, found: found.get(lot.lotId) ?? 0 })
  })
}

/** Nonconforming cords among the first picks of each lot. */
async function foundInFirst(db: Db, sizes: Map<number, number>): Promise<Map<number, number>> {
  const array = (numbers: Iterable<number>): SQL => sql`${`{${[...numbers].join(',')}}`}::int[]`
  const rows = await db.execute<{ lot: number; found: number }>(sql`
    select first.lot, counted.found
    from unnest(${array(sizes.keys())}, ${array(sizes.values())}) as first (lot, size)
    cross join lateral (
      select count(*) filter (where r.nonconforming)::int as found
      from drawn_cords d join results r on r.lot_id = d.lot_id and r.position = d.position
      where d.lot_id = first.lot and d.pick <= first.size
    ) counted`)
  return new Map(rows.map(({ lot, found }) => [lot, found]))
}

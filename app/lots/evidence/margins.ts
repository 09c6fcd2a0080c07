// The margins that a lot's figure shows: of every recorded cord, or of a random part where they are too many for one.
import { sql } from 'drizzle-orm'
import type { Db, Tx } from '../../../db/client.ts'
import { type AsOf, evidenceEntriesOf } from './lines.ts'

export type CordMargins = {
  position: number
  crosstalkMargin: string | undefined
  returnLossMargin: string | undefined
}

/** `recorded`: cords with an entry, of which these margins are all or the first of the draw. */
export type ShownMargins = { cords: CordMargins[]; recorded: number }

/** The most cords whose figure shows them all. */
const mostShown = 10_000
/** Of more the figure shows the first so many of the draw: a random sample of the lot, found by their picks. */
const firstPicks = 1000

type Row = { position: number; crosstalk: string | null; loss: string | null }

export async function marginsIn(db: Db | Tx, asOf: AsOf, recorded: number): Promise<ShownMargins> {
  const which = recorded <= mostShown ? asOf : { ...asOf, lastPick: firstPicks }
  const rows = await db.execute<Row>(sql`
    select d.position, s.crosstalk_margin::text as crosstalk, s.return_loss_margin::text as loss ${evidenceEntriesOf(which, 0)}`)
  const cords = rows.map(({ position, crosstalk, loss }) => ({
    position,
    crosstalkMargin: crosstalk ?? undefined,
    returnLossMargin: loss ?? undefined,
  }))
  return { cords, recorded }
}

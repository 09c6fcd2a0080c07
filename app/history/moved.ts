// Whether anything moved that a history counts: asked at once, so that what was read before may be used again.
import { sql } from 'drizzle-orm'
import type { Db } from '../../db/client.ts'
import { lots } from '../../db/schema/lots.ts'
import { seriesCounts } from '../../db/schema/series-counts.ts'
import type { Run } from '../kit/task.ts'
import { statesFor } from '../lots/rules/lifecycle.ts'

/**
 * A text that differs as soon as a decision is signed, a lot leaves the counted ones or an entry is made: closed lots do not
 * change, so it rests on the counts by series and on the lots at the bench alone, however many are closed.
 */
export async function historyNow(db: Db): Promise<string> {
  const atTheBench = sql.join(
    statesFor('amend').map((state) => sql`${state}::lot_state`),
    sql`, `,
  )
  const [row] = await db.execute<{ now: string }>(sql`
    select md5(coalesce((select json_agg(s order by supplier_id, item_id)::text from ${seriesCounts} s), '')
      || coalesce((select count(*) || '/' || max(moved_at) || '/' || sum(version) from ${lots} where state in (${atTheBench})), '')) as now`)
  return row?.now ?? ''
}

/** Reads once for each question until the history moves; the few latest questions of each database are kept. */
export function readUntilMoved<Which, Facts>(
  read: (db: Db, which: Which, run: Run) => Promise<Facts>,
): (db: Db, which: Which, run: Run) => Promise<Facts> {
  const kept = new WeakMap<Db, { now: string; facts: Map<string, Facts> }>()
  return async (db, which, run) => {
    const now = await historyNow(db)
    const before = kept.get(db)
    const facts = before?.now === now ? before.facts : new Map<string, Facts>()
    kept.set(db, { now, facts })
    const key = JSON.stringify(which)
    const known = facts.get(key)
    if (known) return known
    const fresh = await read(db, which, run)
    if (facts.size < questionsKept) facts.set(key, fresh)
    return fresh
  }
}

const questionsKept = 50

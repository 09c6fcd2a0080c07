// What a stranger can make happen as often as they like is told by how often, so that nobody fills the audit.
import { sql } from 'drizzle-orm'
import type { Db } from '../../db/client.ts'
import { eventCounts } from '../../db/schema/audit.ts'
import type { AuditAction } from '../terms/actions.ts'
import type { Person } from '../terms/person.ts'
import { record, recordFrom } from './record.ts'

export type Often = { who: Person | string; action: AuditAction; subject: string; detail: Record<string, unknown> }

/**
 * Counts what happened to `subject` in this hour; the 1st, 10th, 100th … of the hour gets a line, with the number. An
 * hour of a subject has seven lines at most, for all that ten million requests can do.
 */
export async function recordOften(db: Db, { who, action, subject, detail }: Often): Promise<void> {
  await db.transaction(async (tx) => {
    const [counted] = await tx
      .insert(eventCounts)
      .values({ event: `${action} ${subject}`, hour: sql`date_trunc('hour', now())`, times: 1 })
      .onConflictDoUpdate({
        target: [eventCounts.event, eventCounts.hour],
        set: { times: sql`${eventCounts.times} + 1` },
      })
      .returning({ times: eventCounts.times })
    if (!counted || !/^10*$/.test(String(counted.times))) return
    const told = { ...detail, timesThisHour: counted.times }
    if (typeof who === 'string') await recordFrom(tx, who, action, subject, told)
    else await record(tx, who, action, subject, told)
  })
}

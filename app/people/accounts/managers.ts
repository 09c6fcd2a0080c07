// There is always somebody who can decide and who can add people.
import { and, eq } from 'drizzle-orm'
import type { Tx } from '../../../db/client.ts'
import { people } from '../../../db/schema/people.ts'
import { Refusal } from '../../kit/refusal.ts'

/**
 * Locks every active manager's row, in one order, and returns their numbers. Whatever changes somebody's standing begins
 * with it: two managers who remove each other at the same moment come one after the other, and neither waits for ever.
 */
export async function lockManagers(tx: Tx): Promise<number[]> {
  const managers = await tx
    .select({ id: people.id })
    .from(people)
    .where(and(eq(people.role, 'manager'), eq(people.active, true)))
    .orderBy(people.id)
    .for('no key update')
  return managers.map(({ id }) => id)
}

/** Refuses to take the last active manager out of office. */
export function keepOneManager(managers: number[], leaving: number): void {
  if (managers.every((id) => id === leaving)) throw new Refusal('conflict', 'person/last-manager', {})
}

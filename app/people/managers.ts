// There is always somebody who can decide and who can add people.
import { and, eq } from 'drizzle-orm'
import type { Tx } from '../../db/client.ts'
import { people } from '../../db/schema/people.ts'
import { Refusal } from '../kit/refusal.ts'

/**
 * Refuses to take the last active manager out of office. It locks every active manager's row first, so that two managers
 * who remove each other at the same moment do not both succeed.
 */
export async function keepOneManager(tx: Tx, leaving: number): Promise<void> {
  const managers = await tx
    .select({ id: people.id })
    .from(people)
    .where(and(eq(people.role, 'manager'), eq(people.active, true)))
    .orderBy(people.id)
    .for('update')
  if (managers.every(({ id }) => id === leaving))
    throw new Refusal('conflict', 'This is the last manager: make somebody else a manager first')
}

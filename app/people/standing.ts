// Whether who acts may still act: read again inside the verb's transaction, as the session was read before it.

import { eq, sql } from 'drizzle-orm'
import type { Tx } from '../../db/client.ts'
import { people } from '../../db/schema/people.ts'
import { statement } from '../../db/statement.ts'
import { Refusal } from '../kit/refusal.ts'
import type { ActOfRole, Person } from '../terms/person.ts'
import { requireRole } from './person.ts'

/**
 * Every verb's transaction begins with it. Until that transaction ends nobody can deactivate the person or change the
 * role, so the audit never tells an act after the line that took the right to it away.
 * Throws Refusal forbidden.
 */
export async function requireStanding(tx: Tx, person: Person, act: ActOfRole): Promise<void> {
  const { passwordTemporary } = await requireActive(tx, person)
  if (passwordTemporary) throw new Refusal('forbidden', 'standing/temporary-password', {})
  requireRole(person, act)
}

/** The same for what everybody may do with their own account. */
export async function requireActive(tx: Tx, person: Person): Promise<{ passwordTemporary: boolean }> {
  const [now] = await standingOf(tx, { id: person.id })
  if (!now?.active) throw new Refusal('forbidden', 'standing/deactivated', { name: person.name })
  if (now.reset) throw new Refusal('forbidden', 'standing/reset', { name: person.name })
  if (now.role !== person.role) throw new Refusal('forbidden', 'standing/role-changed', { name: person.name })
  return now
}

const standingOf = statement<{ id: number }>('standing', ['id']).worded((db, { id }) => {
  const { active, role, passwordTemporary, passwordHash } = people
  return db
    .select({ active, role, passwordTemporary, reset: sql<boolean>`${passwordHash} is null` })
    .from(people)
    .where(eq(people.id, id))
    .for('share')
})

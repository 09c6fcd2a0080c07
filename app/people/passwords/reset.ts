// Coming back after a forgotten password: a manager makes a link that works once, and the person chooses the new password by it.
import { eq } from 'drizzle-orm'
import type { Db } from '../../../db/client.ts'
import { people } from '../../../db/schema/people.ts'
import { record } from '../../audit/record.ts'
import { Refusal } from '../../kit/refusal.ts'
import type { Person } from '../../terms/person.ts'
import { lockManagers } from '../accounts/managers.ts'
import { closeSessionsOf, openSession } from '../sessions/session.ts'
import { requireStanding } from '../standing.ts'
import { setPassword } from './change-password.ts'
import { checkLink, endLinksOf, HOURS, makeLink, useLink } from './link.ts'
import { refuseGuessable } from './new-password.ts'
import { hashPassword } from './password.ts'

/**
 * Takes a person's password and sessions away and returns the token of the link to hand over, and whose it is. An earlier
 * link ends. Throws Refusal: forbidden for any other role; missing; conflict for oneself and for who is not active.
 */
export async function resetPassword(db: Db, manager: Person, id: number): Promise<{ name: string; token: string }> {
  return db.transaction(async (tx) => {
    await lockManagers(tx)
    await requireStanding(tx, manager, 'reset-password')
    if (id === manager.id) throw new Refusal('conflict', 'password/own-page', {})
    const [person] = await tx.select().from(people).where(eq(people.id, id)).for('no key update')
    if (!person) throw new Refusal('missing', 'person/missing', {})
    const { name, active } = person
    if (!active) throw new Refusal('conflict', 'person/inactive', { name })
    await tx.update(people).set({ passwordHash: null, passwordTemporary: false }).where(eq(people.id, id))
    await closeSessionsOf(tx, id)
    await endLinksOf(tx, id)
    const token = await makeLink(tx, { purpose: 'new-password', personId: id, hours: HOURS['new-password'] })
    await record(tx, manager, 'person.password-reset', `people/${id}`, { name })
    return { name, token }
  })
}

/** Whose new password the link is for. Throws Refusal missing for a link that does not work any more. */
export async function personOfLink(db: Db, token: string): Promise<{ name: string }> {
  const { personId } = await checkLink(db, 'new-password', token)
  const [person] = await db
    .select()
    .from(people)
    .where(eq(people.id, personId ?? 0))
  if (!person?.active) throw new Refusal('missing', 'link/inactive', {})
  return person
}

/** Sets the password that the person chose, ends their sessions elsewhere, and returns the token of a new one. */
export async function choosePassword(db: Db, token: string, password: string): Promise<string> {
  const { name } = await personOfLink(db, token)
  refuseGuessable(password, { name, field: 'password' })
  const passwordHash = await hashPassword(password)
  return db.transaction(async (tx) => {
    const { personId } = await useLink(tx, 'new-password', token)
    const [person] = await tx
      .select()
      .from(people)
      .where(eq(people.id, personId ?? 0))
      .for('no key update')
    if (!person?.active) throw new Refusal('missing', 'link/inactive', {})
    await setPassword(tx, person.id, passwordHash)
    const acting: Person = { id: person.id, name: person.name, role: person.role, separateDuties: true }
    await record(tx, acting, 'person.password-chosen', `people/${person.id}`, { by: 'one-time link' })
    return openSession(tx, person.id)
  })
}

// The way back in from the machine itself, where no manager can sign in: a one-time link for one of them, or for a new one.
import { and, eq } from 'drizzle-orm'
import type { Db } from '../../../db/client.ts'
import { people } from '../../../db/schema/people.ts'
import { record, recordFrom } from '../../audit/record.ts'
import { Refusal } from '../../kit/refusal.ts'
import type { Person } from '../../terms/person.ts'
import { insertPerson } from '../accounts/add.ts'
import { lockManagers } from '../accounts/managers.ts'
import { checkedName, folded } from '../accounts/name.ts'
import { openSession } from '../sessions/session.ts'
import { checkLink, endLinksOf, HOURS, makeLink, pathOfLink, useLink } from './link.ts'
import { refuseGuessable } from './new-password.ts'
import { hashPassword } from './password.ts'

export type Recovery =
  /** nobody has an account yet: the set-up link on the console is the way in */
  | { kind: 'empty' }
  | { kind: 'choose'; managers: string[] }
  | { kind: 'link'; forWhom: string | undefined; path: string; hours: number }

const WHO = 'The console'

/** Makes a link for the manager of this name, or for the only one; where none is active, for a new one. */
export async function recover(db: Db, name: string | undefined): Promise<Recovery> {
  return db.transaction(async (tx) => {
    if ((await tx.$count(people)) === 0) return { kind: 'empty' }
    const active = and(eq(people.role, 'manager'), eq(people.active, true))
    const managers = await tx.select().from(people).where(active).orderBy(people.id)
    const hours = HOURS['new-manager']
    if (managers.length === 0) {
      const token = await makeLink(tx, { purpose: 'new-manager', hours })
      await recordFrom(tx, WHO, 'person.recovery-offered', 'people', { for: 'a new manager' })
      return { kind: 'link', forWhom: undefined, path: pathOfLink('new-manager', token), hours }
    }
    const [meant] =
      name === undefined
        ? managers
        : await tx
            .select()
            .from(people)
            .where(and(active, eq(folded(people.name), folded(name))))
    if (!meant || (name === undefined && managers.length > 1))
      return { kind: 'choose', managers: managers.map((manager) => manager.name) }
    await endLinksOf(tx, meant.id)
    const token = await makeLink(tx, { purpose: 'new-password', personId: meant.id, hours })
    await recordFrom(tx, WHO, 'person.recovery-offered', `people/${meant.id}`, { name: meant.name })
    return { kind: 'link', forWhom: meant.name, path: pathOfLink('new-password', token), hours }
  })
}

export type NewManager = { name: string; password: string }

/**
 * Makes a manager by a link of the console and opens a session; returns its token.
 * Throws Refusal missing where the link does not work any more, conflict where a manager is active by now.
 */
export async function becomeManager(db: Db, token: string, { name, password }: NewManager): Promise<string> {
  await checkLink(db, 'new-manager', token)
  const kept = checkedName(name)
  refuseGuessable(password, { name: kept, field: 'password' })
  const passwordHash = await hashPassword(password)
  return db.transaction(async (tx) => {
    await useLink(tx, 'new-manager', token)
    if ((await lockManagers(tx)).length > 0) throw new Refusal('conflict', 'firm/has-manager', {})
    const id = await insertPerson(tx, { name: kept, role: 'manager', passwordHash })
    const manager: Person = { id, name: kept, role: 'manager', separateDuties: true }
    await record(tx, manager, 'person.added', `people/${id}`, { name: kept, role: 'manager', by: 'recovery link' })
    return openSession(tx, id)
  })
}

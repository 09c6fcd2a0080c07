// What is bought and what it demands: an item is defined and changed by the procurement officer.
import { and, eq, ne, sql } from 'drizzle-orm'
import type { Db, Tx } from '../../db/client.ts'
import { items } from '../../db/schema/register.ts'
import { record } from '../audit/record.ts'
import { Refusal } from '../kit/refusal.ts'
import { once } from '../people/once.ts'
import { requireStanding } from '../people/standing.ts'
import type { Person } from '../terms/person.ts'
import { checkedTerms, type ItemTerms } from './item-terms.ts'

/** Enters an item. Returns its number; the same form sent again returns the same number. */
export async function defineItem(
  db: Db,
  officer: Person,
  { key, ...typed }: ItemTerms & { key: string },
): Promise<number> {
  const terms = checkedTerms(typed)
  const sent = { key, person: officer, act: 'item.defined' as const, subject: 'item', input: terms }
  return db.transaction(async (tx) => {
    await requireStanding(tx, officer, 'define-item')
    const { made } = await once(tx, sent, async () => {
      await refuseSameName(tx, terms.name, 0)
      const [added] = await tx
        .insert(items)
        .values({ ...terms, createdBy: officer.id })
        .returning({ id: items.id })
      if (!added) throw new Error(`item ${terms.name} was not added`)
      await record(tx, officer, 'item.defined', `item/${added.id}`, terms)
      return added.id
    })
    return made
  })
}

/**
 * Changes an item. It reaches lots whose plan is not frozen; a frozen plan keeps the terms it was frozen with, so that
 * nobody moves a limit after the data are seen.
 */
export async function changeItem(
  db: Db,
  officer: Person,
  itemId: number,
  { key, version, ...typed }: ItemTerms & { key: string; version: number },
): Promise<void> {
  const terms = checkedTerms(typed)
  const sent = {
    key,
    person: officer,
    act: 'item.changed' as const,
    subject: `item/${itemId}`,
    input: { ...terms, version },
  }
  await db.transaction(async (tx) => {
    await requireStanding(tx, officer, 'change-item')
    return once(tx, sent, async () => {
      await refuseSameName(tx, terms.name, itemId)
      const [item] = await tx.select().from(items).where(eq(items.id, itemId)).for('update')
      if (!item) throw new Refusal('missing', 'item/missing', { item: itemId })
      if (item.version !== version) throw new Refusal('conflict', 'item/changed-since', {})
      await tx
        .update(items)
        .set({ ...terms, version: version + 1 })
        .where(eq(items.id, itemId))
      const { id, createdBy, createdAt, version: former, ...before } = item
      await record(tx, officer, 'item.changed', `item/${id}`, { before, after: terms })
      return id
    })
  })
}

/** Names are compared without capitals; a lock on the name lets two officers enter it one after the other. */
async function refuseSameName(tx: Tx, name: string, itemId: number): Promise<void> {
  await tx.execute(sql`select pg_advisory_xact_lock(hashtext('item'), hashtext(lower(${name})))`)
  const [other] = await tx
    .select({ id: items.id })
    .from(items)
    .where(and(sql`lower(${items.name}) = lower(${name})`, ne(items.id, itemId)))
  if (other) throw new Refusal('invalid', 'item/name-taken', { name }, 'name')
}

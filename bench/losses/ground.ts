// What the writers of the campaign work on: inspectors with open sessions, and lots of which every cord is drawn.
import { randomUUID } from 'node:crypto'
import { asc, eq } from 'drizzle-orm'
import type postgres from 'postgres'
import { announceLot } from '../../app/lots/acts/announce.ts'
import { drawLot } from '../../app/lots/acts/draw.ts'
import { freezePlan } from '../../app/lots/acts/freeze-plan.ts'
import { receiveLot } from '../../app/lots/acts/receive.ts'
import { factsOf } from '../../app/lots/record/lot.ts'
import { openSession } from '../../app/people/sessions/session.ts'
import { defineItem } from '../../app/register/define-item.ts'
import { registerSupplier } from '../../app/register/register-supplier.ts'
import type { Person } from '../../app/terms/person.ts'
import { type Db, databaseOver } from '../../db/client.ts'
import { people } from '../../db/schema/people.ts'
import { drawnCords } from '../../db/schema/results.ts'
import { terms } from '../item.ts'

/** One inspector's work: a session, and cords of one lot that nobody else records. */
export type Place = { cookie: string; lotId: number; positions: number[] }

const LOTS = 2

/** Makes the places over the owner's connection, so that no request of the service is needed for it. */
export async function makePlaces(owner: postgres.Sql, writers: number, cordsEach: number): Promise<Place[]> {
  const db = databaseOver(owner)
  const officer = await addPerson(db, 'officer', 'Oda Officer')
  const places: Place[] = []
  const each = Math.ceil(writers / LOTS)
  for (let lot = 1; lot <= LOTS; lot++) {
    const inspectors: Person[] = []
    for (let n = 1; n <= each; n++) inspectors.push(await addPerson(db, 'inspector', `Ivo Inspector ${lot}.${n}`))
    const lotId = await drawnLot(db, officer, inspectors[0] ?? officer, each * cordsEach)
    const drawn = await db
      .select({ position: drawnCords.position })
      .from(drawnCords)
      .where(eq(drawnCords.lotId, lotId))
      .orderBy(asc(drawnCords.position))
    for (const [at, { id }] of inspectors.entries()) {
      const token = await db.transaction((tx) => openSession(tx, id))
      const positions = drawn.filter((_, i) => i % each === at).map(({ position }) => position)
      places.push({ cookie: `cordsift=${token}`, lotId, positions })
    }
  }
  return places
}

async function addPerson(db: Db, role: Person['role'], name: string): Promise<Person> {
  const [row] = await db.insert(people).values({ name, role, passwordHash: 'none' }).returning({ id: people.id })
  if (!row) throw new Error(`${name} was not added`)
  return { id: row.id, name, role, separateDuties: true }
}

async function drawnLot(db: Db, officer: Person, inspector: Person, size: number): Promise<number> {
  const supplierId = await registerSupplier(db, officer, { key: randomUUID(), name: `Supplier ${randomUUID()}` })
  const itemId = await defineItem(db, officer, { ...terms, name: `Cord ${randomUUID()}`, key: randomUUID() })
  const lot = { cartons: 1, cordsInCarton: size, productionMark: 'W31', purchaseOrder: 'PO 7', isolated: false }
  const lotId = await announceLot(db, officer, { ...lot, key: randomUUID(), supplierId, itemId, size })
  const { version, announced } = await factsOf(db, lotId)
  await receiveLot(db, inspector, lotId, { ...announced, version, note: '' })
  const { version: received } = await factsOf(db, lotId)
  await freezePlan(db, officer, lotId, {
    version: received,
    kind: 'single',
    sampleSize: size,
    acceptanceNumber: 0,
    reason: 'for a measurement',
  })
  await drawLot(db, inspector, lotId)
  return lotId
}

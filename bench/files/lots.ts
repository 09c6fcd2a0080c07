// Prepares a place for the bench of results files: an officer, an inspector, a small lot and one of a million, every cord drawn.
import { randomUUID } from 'node:crypto'
import postgres from 'postgres'
import { announceLot } from '../../app/lots/acts/announce.ts'
import { drawLot } from '../../app/lots/acts/draw.ts'
import { freezePlan } from '../../app/lots/acts/freeze-plan.ts'
import { receiveLot } from '../../app/lots/acts/receive.ts'
import { factsOf } from '../../app/lots/record/lot.ts'
import { openSessionFor } from '../../app/people/sessions/sign-in.ts'
import { defineItem } from '../../app/register/define-item.ts'
import { registerSupplier } from '../../app/register/register-supplier.ts'
import type { Person } from '../../app/terms/person.ts'
import type { Db } from '../../db/client.ts'
import { openPool } from '../../db/connect.ts'
import { startEmbedded } from '../../db/embedded/start.ts'
import { ownLogin } from '../../db/login.ts'
import { migrateDatabase } from '../../db/migrate.ts'
import { terms } from '../item.ts'

/** Numbers of the lots, and the cookie of each person. */
export type Filled = { small: number; large: number; officer: string; inspector: string }

/** Fills an empty folder and closes it again. */
export async function fillLots(folder: string): Promise<Filled> {
  const server = await startEmbedded(folder)
  await migrateDatabase(server.address)
  const owner = postgres({ ...server.address, max: 1, onnotice: () => {} })
  await owner`insert into firms (name, example) values ('A firm for measurements', false)`
  const [officer, inspector] = [await personAdded(owner, 'officer'), await personAdded(owner, 'inspector')]
  await owner.end()
  const { db, close } = openPool(await ownLogin(server.address))
  const supplierId = await registerSupplier(db, officer, { key: randomUUID(), name: 'A maker' })
  const itemId = await defineItem(db, officer, { key: randomUUID(), ...ownTerms })
  const made = (size: number) => drawnWhole(db, { officer, inspector, supplierId, itemId, size })
  const cookie = async (person: Person) => `cordsift=${await openSessionFor(db, person)}`
  const filled = {
    small: await made(500),
    large: await made(1_000_000),
    officer: await cookie(officer),
    inspector: await cookie(inspector),
  }
  await close()
  await server.stop()
  return filled
}

const ownTerms = { ...terms, name: 'A cord', tooMany: '1%' }

async function personAdded(owner: postgres.Sql, role: Person['role']): Promise<Person> {
  const name = `The ${role}`
  const [row] = await owner<{ id: number }[]>`
    insert into people (name, role, password_hash) values (${name}, ${role}, 'none') returning id`
  if (!row) throw new Error(`${name} was not added`)
  return { id: row.id, name, role, separateDuties: true }
}

type Wanted = { officer: Person; inspector: Person; supplierId: number; itemId: number; size: number }

async function drawnWhole(db: Db, { officer, inspector, supplierId, itemId, size }: Wanted): Promise<number> {
  const packing = { size, cartons: size / 100, cordsInCarton: 100, productionMark: 'W31' }
  const order = { supplierId, itemId, purchaseOrder: 'PO 7', isolated: false }
  const lotId = await announceLot(db, officer, { key: randomUUID(), ...packing, ...order })
  await receiveLot(db, inspector, lotId, { ...packing, version: (await factsOf(db, lotId)).version, note: '' })
  const { version } = await factsOf(db, lotId)
  await freezePlan(db, officer, lotId, { version, kind: 'every-cord', sampleSize: size, acceptanceNumber: size })
  await drawLot(db, inspector, lotId)
  return lotId
}

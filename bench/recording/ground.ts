// Prepares a place for the bench of recording: inspectors who are signed in, each with lots of which every cord is drawn and none recorded.
import { randomBytes } from 'node:crypto'
import postgres from 'postgres'
import { hashOf } from '../../app/people/sessions/session.ts'
import { startEmbedded } from '../../db/embedded/start.ts'
import { migrateDatabase } from '../../db/migrate.ts'
import { fillDrawnLot, fillRegister } from '../large-lots.ts'

/** `cookie` belongs to one inspector; nobody else records in the lots. */
export type Bench = { cookie: string; lots: number[] }

/** Fills an empty folder and closes it again. `sizes`: of each inspector's lots. */
export async function fillBenches(folder: string, sizes: number[][]): Promise<Bench[]> {
  const server = await startEmbedded(folder)
  await migrateDatabase(server.address)
  const owner = postgres({ ...server.address, max: 1, onnotice: () => {} })
  await owner`insert into firms (name, example) values ('A firm for measurements', false)`
  await added(owner, 'officer', 0)
  const inspectors: number[] = []
  for (const number of sizes.keys()) inspectors.push(await added(owner, 'inspector', number + 1))
  await fillRegister(owner)
  const benches: Bench[] = []
  for (const [number, own] of sizes.entries()) {
    const lots: number[] = []
    for (const size of own) lots.push(await fillDrawnLot(owner, { size, sampleSize: size }))
    benches.push({ cookie: await signedIn(owner, inspectors[number] ?? 0), lots })
  }
  await owner`create database plain`
  const plain = postgres({ ...server.address, database: 'plain', max: 1 })
  await plain`create table plain (id bigint generated always as identity primary key,
    lot integer not null, position integer not null, margin numeric, said text, at timestamptz not null default now())`
  await plain.end()
  await owner.end()
  await server.stop()
  return benches
}

async function added(owner: postgres.Sql, role: string, number: number): Promise<number> {
  const [row] = await owner<{ id: number }[]>`
    insert into people (name, role, password_hash) values (${`Person ${number}`}, ${role}, 'none') returning id`
  return row?.id ?? 0
}

async function signedIn(owner: postgres.Sql, person: number): Promise<string> {
  const token = randomBytes(32).toString('base64url')
  await owner`insert into sessions (token_hash, person_id, expires_at) values (${hashOf(token)}, ${person}, now() + interval '1 day')`
  return `cordsift=${token}`
}

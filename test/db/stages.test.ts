// A database from before plans had stages: its plans keep what they say, and its drawn cords belong to their only stage.
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { drizzle } from 'drizzle-orm/postgres-js'
import { migrate } from 'drizzle-orm/postgres-js/migrator'
import { expect, test } from 'vitest'
import { z } from 'zod'
import { migrateDatabase } from '../../db/migrate.ts'
import { projectRoot } from '../../db/root.ts'
import { freshDatabase } from '../support/database.ts'

const { owner, address } = await freshDatabase()

/** Empties the database and takes it up to the last migration before stages. */
async function asBefore(): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'migrations-'))
  cpSync(join(projectRoot, 'db/migrations'), folder, { recursive: true })
  const file = join(folder, 'meta/_journal.json')
  const journal = z.looseObject({ entries: z.array(z.looseObject({ idx: z.number() })) })
  const { entries, ...rest } = journal.parse(JSON.parse(readFileSync(file, 'utf8')))
  writeFileSync(file, JSON.stringify({ ...rest, entries: entries.filter(({ idx }) => idx < 7) }))
  await owner`drop schema public cascade`
  await owner`drop schema drizzle cascade`
  await owner`create schema public`
  await migrate(drizzle(owner), { migrationsFolder: folder })
  rmSync(folder, { recursive: true })
}

test('a database from before is brought to stages with all its lots', async () => {
  await asBefore()
  await owner`insert into people (name, role, password_hash) values ('Oda', 'officer', 'none')`
  await owner`insert into suppliers (name, created_by) values ('Invented Cords', 1)`
  await owner`insert into items (name, category_claimed, cord_limit, length_metres, marginal_policy, crosstalk_accuracy,
    return_loss_accuracy, too_many, catch_of100, cost_test_cents, cost_escape_cents, cost_return_cents, created_by)
    values ('Grey cord', 'Category 6A', 'a limit', 2, 'strict', 1, 1, '3', 95, 1, 1, 1, 1)`
  await owner`insert into lots (supplier_id, item_id, announced_size, cartons, cords_in_carton, production_mark,
    purchase_order, announced_by, size, received_by, received_at, state)
    values (1, 1, 20, 2, 10, 'A', 'B', 1, 20, 1, now(), 'drawn')`
  await owner`insert into plans (lot_id, kind, lot_size, sample_size, acceptance_number, too_many, catch_of100, category_claimed,
    cord_limit, marginal_policy, crosstalk_accuracy, return_loss_accuracy, cost_test_cents, cost_escape_cents,
    cost_return_cents, frozen_by) values (1, 'single', 20, 5, 1, 3, 95, 'Category 6A', 'a limit', 'strict', 1, 1, 1, 1, 1, 1)`
  await owner`insert into draws (lot_id, seed, method, drawn_by) values (1, '7', 'by hand', 1)`
  await owner`insert into drawn_cords (lot_id, position, purpose, pick) values (1, 4, 'sample', 1), (1, 9, 'rest', null)`

  await migrateDatabase(address)
  expect(await owner`select stages from plans`).toEqual([
    { stages: [{ sampleSize: 5, acceptanceNumber: 1, rejectionNumber: 2 }] },
  ])
  expect(await owner`select position, stage from drawn_cords order by position`).toEqual([
    { position: 4, stage: 1 },
    { position: 9, stage: null },
  ])
  await expect(owner`update plans set stages = '[]'`).rejects.toMatchObject({ constraint_name: 'written_once' })
})

// Makes the README's three pictures anew from the example, so that they show the pages as they are, and holds their size.
import { mkdirSync, readFileSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { eq } from 'drizzle-orm'
import { beforeAll, expect, test } from 'vitest'
import { projectRoot } from '../../app/kit/root.ts'
import type { Role } from '../../app/terms/person.ts'
import { databaseOver } from '../../db/client.ts'
import { lots } from '../../db/schema/lots.ts'
import { people } from '../../db/schema/people.ts'
import { plantExample } from '../../seed/example.ts'
import { surf } from '../support/browser.ts'
import { freshDatabase } from '../support/database.ts'

const { db, owner } = await freshDatabase()
beforeAll(() => plantExample(databaseOver(owner)))
const { visit } = await surf(db)

const folder = join(projectRoot, 'docs/pictures')
const largest = 150_000

async function lotOf(order: string): Promise<number> {
  const [lot] = await db.select({ id: lots.id }).from(lots).where(eq(lots.purchaseOrder, order))
  if (!lot) throw new Error(`the example has no lot of ${order}`)
  return lot.id
}

async function personOf(role: Role) {
  const [person] = await db.select().from(people).where(eq(people.role, role))
  if (!person) throw new Error(`the example has no ${role}`)
  return { ...person, separateDuties: true }
}

test.each([
  { name: 'advisor', role: undefined, path: async () => '/', shows: 'Test 132 of the 600 cords.' },
  { name: 'plan', role: 'officer', path: async () => `/lots/${await lotOf('PO 7031')}/plan`, shows: 'The plan allows' },
  {
    name: 'decision',
    role: 'manager',
    path: async () => `/lots/${await lotOf('PO 7026')}/decision`,
    shows: 'Costs least',
  },
] as const)('the picture of the $name', async ({ name, role, path, shows }) => {
  const page = await visit({ width: 1280, as: role && (await personOf(role)) })
  await page.goto(await path())
  await page.getByText(shows).first().waitFor()
  await page.evaluate('document.fonts.ready')
  mkdirSync(folder, { recursive: true })
  const file = join(folder, `${name}.jpg`)
  await page.screenshot({ path: file, type: 'jpeg', quality: 72 })
  expect(statSync(file).size).toBeGreaterThan(20_000)
  expect(statSync(file).size).toBeLessThan(largest)
  expect(readFileSync(join(projectRoot, 'README.md'), 'utf8')).toContain(`docs/pictures/${name}.jpg`)
})

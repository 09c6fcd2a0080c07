// The register of suppliers.
import { randomUUID } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { registerSupplier } from '../../app/register/register-supplier.ts'
import { suppliersOf } from '../../app/register/suppliers.ts'
import { freshDatabase } from '../support/database.ts'
import { threePeople } from '../support/people.ts'

const { db, owner } = await freshDatabase()
const { officer, inspector, manager } = await threePeople(db)
const register = (name: string, key = randomUUID()) => registerSupplier(db, officer, { key, name })

describe('a supplier', () => {
  test('is entered by the procurement officer, and told to the audit', async () => {
    const id = await register('  Hollow Reed Leads ')
    expect((await suppliersOf(db)).find((each) => each.id === id)?.name).toBe('Hollow Reed Leads')
    const told = await owner`select action, person_name, detail from audit where subject = ${`supplier/${id}`}`
    expect(told).toEqual([
      { action: 'supplier.registered', person_name: officer.name, detail: { name: 'Hollow Reed Leads' } },
    ])
    for (const other of [inspector, manager])
      await expect(registerSupplier(db, other, { key: randomUUID(), name: 'X' })).rejects.toMatchObject({
        kind: 'forbidden',
      })
  })

  test('sent twice, even at once, is one supplier', async () => {
    const key = randomUUID()
    const ids = await Promise.all([1, 2, 3].map(() => register('Twice Told Cords', key)))
    ids.push(await register('Twice Told Cords', key))
    expect(new Set(ids).size).toBe(1)
  })

  test('has a name of its own, whatever the capitals, even when two are entered at once', async () => {
    await register('Grey Heron Wire')
    await expect(register('GREY heron wire')).rejects.toMatchObject({ kind: 'invalid', field: 'name' })
    const both = await Promise.allSettled([register('Salt Marsh Cable'), register('salt marsh cable')])
    expect(both.map((one) => one.status).sort()).toEqual(['fulfilled', 'rejected'])
    expect(both.find((one) => one.status === 'rejected')?.reason).toMatchObject({ kind: 'invalid', field: 'name' })
  })

  test.each(['', '   ', 'x'.repeat(121)])('called “%s” is refused', async (name) => {
    await expect(register(name)).rejects.toMatchObject({ kind: 'invalid', field: 'name' })
  })
})

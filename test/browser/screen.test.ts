// A failed sample, every cord screened, and the lot then seen in the percentage question, all in a browser.
import { expect, test } from 'vitest'
import { follow, mainText, press, signIn, surf } from '../support/browser.ts'
import { freshDatabase } from '../support/database.ts'
import { exactAtMost, exactShipped } from '../support/exact.ts'
import { threePeople } from '../support/people.ts'
import {
  announceLot,
  drawLot,
  freezePlan,
  pasteFile,
  positionsShown,
  receiveLot,
  recordAtBench,
  registerSupplierAndItem,
  resultsFile,
  sign,
} from './steps.ts'

const { db } = await freshDatabase()
await threePeople(db)
const { visit, complaints } = await surf(db)

const clear = { side: 'above the limit' as const, typed: '3.7' }

test('a screened lot shows what a tenth of it would have let through', { timeout: 240_000 }, async () => {
  const officer = await visit({})
  await signIn(officer, 'Oda Officer')
  const inspector = await visit({ width: 390 })
  await signIn(inspector, 'Ivo Inspector')
  const manager = await visit({})
  await signIn(manager, 'Mara Manager')

  const bought = await registerSupplierAndItem(officer, 'three')
  const lotId = await announceLot(officer, { ...bought, size: 60, cordsInCarton: 20 })
  await receiveLot(inspector, lotId, 60)
  await freezePlan(officer, lotId, 'Your percentage')
  const sample = await drawLot(inspector, lotId)
  expect(sample).toHaveLength(6)

  await follow(inspector, 'Go to the bench')
  await recordAtBench(inspector, { crosstalk: clear, returnLoss: { side: 'short of the limit', typed: '1,2' } })
  await inspector
    .getByText(`The plan rejects this lot: decided at cord ${sample[0]}. You may stop; a manager decides.`)
    .waitFor()

  await manager.goto(`/lots/${lotId}/decision`)
  const stopped = await mainText(manager)
  expect(stopped).toContain('No fair estimate after a stop')
  // 59 tests at 1.30 and one return at 200: by hand, 76.70 + 200.
  expect(stopped).toMatch(/Screen the rest EUR 276\.70 .*59 more tests/)
  await sign(manager, /^Screen the rest/, 'Sign the decision')
  await manager.getByText('Screening: 59 cords are left to test.').waitFor()

  await inspector.goto(`/lots/${lotId}/draw`)
  const rest = (await positionsShown(inspector)).filter((position) => position !== sample[0])
  expect(rest).toHaveLength(59)
  const failing = rest.slice(20, 25)
  await pasteFile(inspector, lotId, resultsFile(rest, failing))
  await inspector.getByText('Every cord is tested: 6 of 60 are nonconforming.').waitFor()

  await manager.goto(`/lots/${lotId}`)
  await follow(manager, 'Close this lot')
  expect(await positionsShown(manager)).toEqual([sample[0] ?? 0, ...failing].sort((a, b) => a - b))
  await sign(manager, 'Keep the conforming cords', 'Sign and close this lot')
  await manager.getByText('60 received = 54 kept + 6 sent back + 0 missing').waitFor()

  await officer.goto('/suppliers')
  await follow(officer, bought.supplier)
  await follow(officer, 'Would a percentage have caught its bad lots?')
  await officer.getByText(/^Of 1 lot tested cord by cord/).waitFor()
  const open = (topic: string) => officer.locator('summary', { hasText: topic }).click()
  await open('The lots behind it')
  await open('One sample of one lot, cord by cord')
  await officer.getByText('The latest 1 lot one by one').click()
  const row = officer.getByRole('row', { name: `Lot ${lotId}` })
  const cells = (await row.getByRole('cell').allTextContents()).map((cell) => cell.trim())
  // Exact chances by whole numbers: 6 of 60 drawn, 6 not conforming, none allowed.
  const draw = { N: 60, D: 6, n: 6, c: 0 }
  const accepted = Math.round(100 * exactAtMost(draw))
  expect(cells.slice(1, -1)).toEqual(['60', '6', '5', '6', `${accepted} of 100 samples`, exactShipped(draw).toFixed(1)])
  const answer = await mainText(officer)
  expect(answer).toContain('Of 1 lot tested cord by cord, 1 held too many.')
  expect(answer).toMatch(
    /Tested whole by plan: the supplier as it is 0 .*Screened after their sample was rejected, or by the manager’s choice 1 /,
  )
  await press(officer, 'Work it out')
  await open('One sample of one lot, cord by cord')
  await officer.getByText(`One sample of lot ${lotId}`).waitFor()
  expect(complaints).toEqual([])
})

// The whole job as the three people, in a browser with JavaScript and in one without: from the dock to the signed decision.
import { describe, expect, test } from 'vitest'
import { follow, mainText, press, signIn, surf } from '../support/browser.ts'
import { freshDatabase } from '../support/database.ts'
import { PASSWORD, threePeople } from '../support/people.ts'
import {
  announceLot,
  cannotBeTested,
  cordAtBench,
  drawLot,
  fillReading,
  freezePlan,
  pasteFile,
  positionsShown,
  receiveLot,
  recordAtBench,
  registerSupplierAndItem,
  resultsFile,
  ruleOn,
  sign,
} from './steps.ts'

const { db } = await freshDatabase()
await threePeople(db)
const { visit, complaints } = await surf(db)

const good = { side: 'above the limit' as const, typed: '3,7' }

describe.each([
  { browser: 'a browser with JavaScript', javaScript: true },
  { browser: 'a browser without JavaScript', javaScript: false },
])('in $browser', ({ javaScript }) => {
  test('a lot of 480 goes from its announcement to the signed decision', { timeout: 240_000 }, async () => {
    const officer = await visit({ javaScript })
    await signIn(officer, 'Oda Officer')
    const inspector = await visit({ javaScript, width: 390 })
    await signIn(inspector, 'Ivo Inspector')
    const manager = await visit({ javaScript })
    await signIn(manager, 'Mara Manager')

    const bought = await registerSupplierAndItem(officer, javaScript ? 'one' : 'two')
    const lotId = await announceLot(officer, { ...bought, size: 478, cordsInCarton: 40 })
    await receiveLot(inspector, lotId, 480)
    expect(await mainText(inspector)).toContain('2 more than the ')

    // 480 cords, 5 too many, 95 of 100: 216 with none allowed; the tenth lets 59 of 100 through.
    // Figures of the task's own example, checked by exact whole numbers in test/advisor.
    await officer.goto(`/lots/${lotId}/plan`)
    const ways = await mainText(officer)
    expect(ways).toContain('Test 216 of the 480 cords. The plan allows none.')
    expect(ways).toMatch(/None allowed recommended 216 0 5 of 100 .*reason 48 0 59 of 100 /)
    await freezePlan(officer, lotId, 'None allowed')
    expect(await mainText(officer)).toContain('Test 216 cords; none allowed.')

    const drawn = await drawLot(inspector, lotId)
    expect(drawn).toHaveLength(216)
    expect(drawn).toEqual([...new Set(drawn)].sort((a, b) => a - b))

    await atTheBench()
    await theRestFromAFile()
    await theDecision()
    expect(complaints).toEqual([])

    /** A form to be mended, a typed sign, a cord that is gone, a reserve for it, a correction. */
    async function atTheBench() {
      await follow(inspector, 'Go to the bench')
      const [first = 0, second = 0, third = 0] = drawn
      await inspector.locator('.position', { hasText: String(first) }).waitFor()
      await recordAtBench(inspector, { crosstalk: { typed: '2,40' }, returnLoss: good })
      await inspector.getByRole('alert').getByText('Choose above the limit or short of the limit').waitFor()
      expect(await inspector.getByLabel('Crosstalk: by how much').inputValue()).toBe('2,40')

      await recordAtBench(inspector, { crosstalk: { typed: '+2,40' }, returnLoss: good })
      await inspector.getByText(`${first}: conforms`).waitFor()
      expect(await mainText(inspector)).toContain('1 of 216 done 0 do not conform · 0 allowed')

      expect(await cordAtBench(inspector)).toBe(second)
      if (javaScript) await inspector.evaluate('window.stayed = true')
      await recordAtBench(inspector, { crosstalk: good, returnLoss: { side: 'short of the limit', typed: '0.04' } })
      await inspector.getByText(`${second}: does not conform`).waitFor()
      const rejected = await mainText(inspector)
      expect(rejected).toContain('Return loss is 0.04 dB short of the limit.')
      expect(rejected).toContain(
        `The plan rejects this lot: decided at cord ${second}. You may stop; a manager decides.`,
      )
      // With JavaScript the page stays and its part goes on, read out from the new cord's number; without, it is a new page.
      if (javaScript) expect(await inspector.evaluate('window.stayed')).toBe(true)
      if (javaScript) expect(await inspector.evaluate('document.activeElement.className')).toBe('position')
      await correct(second)

      await inspector.goto(`/lots/${lotId}/bench`)
      await cannotBeTested(inspector, 'gone: it was there', 'Not on its rack any more')
      await inspector.getByText(`${third}: gone, not decided`).waitFor()

      await manager.goto('/lots')
      await manager.getByText('A cord that is not decided.').waitFor()
      await manager.goto(`/lots/${lotId}`)
      await ruleOn(manager, third, 'The next reserve of the draw')
      await manager.getByText('is tested in its place').waitFor()
    }

    async function correct(position: number) {
      await inspector.goto(`/lots/${lotId}/cords/${position}`)
      await fillReading(inspector, { crosstalk: good, returnLoss: { side: 'above the limit', typed: '4' } })
      await inspector.getByLabel('Why it is corrected').first().fill('The tester showed it above the limit')
      await press(inspector, 'Correct it')
      await inspector.getByText('Entries before').waitFor()
      expect(await mainText(inspector)).toContain('return loss −0.04 dB')
    }

    async function theRestFromAFile() {
      await inspector.goto(`/lots/${lotId}/draw`)
      const standIn = (await positionsShown(inspector)).filter((position) => !drawn.includes(position))
      expect(standIn).toHaveLength(1)
      const left = [...drawn.slice(3), ...standIn]
      await pasteFile(inspector, lotId, `${resultsFile(left)}\n${left[0]},1,1,in order,in order,T-204`)
      await inspector.getByText(`Line ${left.length + 2}: Cord ${left[0]} stands in line 2 of this file too`).waitFor()
      await manager.goto(`/lots/${lotId}/decision`)
      expect(await mainText(manager)).toMatch(/has no verdict yet: 2 of 216 cords are recorded, of which 0 count/)
      await pasteFile(inspector, lotId, resultsFile(left))
      await inspector.getByText('The plan accepts this lot').first().waitFor()
    }

    /** With none found in 216 of 480 at most 4 may be left: 5 would have been caught 95 times in 100. */
    async function theDecision() {
      await manager.goto(`/lots/${lotId}`)
      await follow(manager, 'Decide on this lot')
      const page = await mainText(manager)
      expect(page).toContain(
        'The plan accepts this lot: 0 of 216 tested cords are nonconforming, and the plan allows none.',
      )
      expect(page).toContain('Nonconforming among the untested 0 to 4 of 264 cords; each end 95 % confidence')
      expect(page).toContain('Random draw not fully kept: 1 drawn cord replaced by a reserve of the draw.')
      expect(page).toMatch(/if that cord conforms 4 of 480 .*if it does not 8 of 480/)
      expect(page).toContain('at worst 4, EUR 340.00 (95 %)') // 4 escapes at 85
      await sign(manager, /^Accept/, 'Sign the decision', 'not the password')
      await manager.getByRole('alert').getByText('The password is not right').waitFor()
      await manager.getByLabel('Your password, as your signature').fill(PASSWORD)
      await press(manager, 'Sign the decision')
      await manager.getByText('This lot is accepted.').waitFor()
      expect(await mainText(manager)).toContain('480 received = 479 kept + 0 sent back + 1 missing')
      await follow(manager, 'Evidence at signing')
      expect(await mainText(manager)).toContain('Results of 217 cords')
    }
  })
})

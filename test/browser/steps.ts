// What the three people do in a browser, as steps that several tests share. Suppliers, items and people are invented.
import type { Page } from 'playwright-core'
import { fillIn, follow, press } from '../support/browser.ts'
import { PASSWORD } from '../support/people.ts'

/** The officer enters a supplier and an item; returns their names. */
export async function registerSupplierAndItem(officer: Page, mark: string) {
  const supplier = `Blue Lantern Leads ${mark}`
  await officer.goto('/suppliers')
  await fillIn(officer, { Name: supplier })
  await press(officer, 'Register this supplier')
  const item = `Grey cord, 2 m, ${mark}`
  await officer.goto('/items/new')
  await fillIn(officer, {
    Name: item,
    'Category claimed': 'Category 6A',
    'Cord limit tested against, with its edition': 'Cord limit of the contract, second edition',
    Length: '2',
    'Tester’s accuracy for crosstalk, at the limit': '1,2',
    'Tester’s accuracy for return loss, at the limit': '1.5',
    'Too many in a lot': '5',
    'Of 100 lots with too many, how many must be caught': '95',
    'Cost of one test': '1.30',
    'Cost of one escaped cord that does not conform': '85',
    'Cost of one lot returned': '200',
  })
  await officer.getByLabel('Strict: a marginal cord counts as not conforming').check()
  await press(officer, 'Define this item')
  await officer.getByRole('heading', { name: item }).waitFor()
  return { supplier, item }
}

type Announced = { supplier: string; item: string; size: number; cordsInCarton: number }

/** The officer announces a lot; returns its number. */
export async function announceLot(officer: Page, { supplier, item, size, cordsInCarton }: Announced): Promise<number> {
  await officer.goto('/lots')
  await follow(officer, 'Announce a lot')
  await officer.getByLabel('Supplier', { exact: true }).selectOption(supplier)
  await officer.getByLabel('Item', { exact: true }).selectOption(item)
  await fillIn(officer, {
    'Cords in the lot, as announced': String(size),
    Cartons: String(Math.ceil(size / cordsInCarton)),
    'Cords in a full carton': String(cordsInCarton),
    'Production mark': 'week 31',
    'Purchase-order reference': 'PO 4711, line 2',
  })
  await press(officer, 'Announce this lot')
  await officer.getByRole('heading', { name: /^Lot \d+ ·/ }).waitFor()
  return Number(/\/lots\/(\d+)$/.exec(officer.url())?.[1])
}

/** The inspector counts so many cords at the dock. */
export async function receiveLot(inspector: Page, lotId: number, counted: number): Promise<void> {
  await inspector.goto(`/lots/${lotId}`)
  await follow(inspector, 'Receive this lot')
  await fillIn(inspector, { 'Cords counted': String(counted) })
  await press(inspector, 'Receive this lot')
  await inspector.getByText(`${counted} counted,`).waitFor()
}

/** The officer freezes the plan for this way of testing; a weaker one than the item demands with a reason. */
export async function freezePlan(officer: Page, lotId: number, way: string): Promise<void> {
  await officer.goto(`/lots/${lotId}`)
  await follow(officer, 'Choose how many to test')
  await officer.getByRole('radio', { name: way }).check()
  await press(officer, 'Review and freeze')
  await officer.getByRole('button', { name: 'Freeze this plan' }).waitFor()
  const weaker = officer.getByLabel('Why a weaker plan')
  if ((await weaker.count()) > 0) await weaker.fill('as the contract has it')
  await press(officer, 'Freeze this plan')
  await officer.getByRole('heading', { name: /^Lot \d+ ·/ }).waitFor()
}

/** The inspector draws; returns the positions in walking order. */
export async function drawLot(inspector: Page, lotId: number): Promise<number[]> {
  await inspector.goto(`/lots/${lotId}`)
  await follow(inspector, 'Draw the cords')
  await press(inspector, /^Draw \d+ positions$/)
  await inspector.getByRole('heading', { name: /^Drawn cords/ }).waitFor()
  return positionsShown(inspector)
}

/** Positions of the list of drawn cords, as their links name them. */
export async function positionsShown(page: Page): Promise<number[]> {
  const links = page.locator('.walk a')
  const paths = await Promise.all((await links.all()).map((link) => link.getAttribute('href')))
  return paths.map((path) => Number(/\/cords\/(\d+)$/.exec(path ?? '')?.[1]))
}

type Margin = { side?: 'above the limit' | 'short of the limit'; typed: string }
export type Bench = { crosstalk: Margin; returnLoss: Margin }

/** The inspector fills the bench's form and presses Enter in its last number. Nothing is waited for. */
export async function recordAtBench(inspector: Page, bench: Bench): Promise<void> {
  await fillReading(inspector, bench)
  await inspector.getByLabel('Return loss: by how much').press('Enter')
}

/** Both margins, with wire map and visual in order. */
export async function fillReading(inspector: Page, { crosstalk, returnLoss }: Bench): Promise<void> {
  await fillMargin(inspector, 'Crosstalk', crosstalk)
  await fillMargin(inspector, 'Return loss', returnLoss)
  for (const name of ['Wire map', 'Visual']) await inspector.getByRole('group', { name }).getByLabel('in order').check()
}

async function fillMargin(page: Page, parameter: string, { side, typed }: Margin): Promise<void> {
  const choice = page.getByRole('group', { name: `${parameter}: the worst margin is` })
  if (side) await choice.getByLabel(side).check()
  await page.getByLabel(`${parameter}: by how much`).fill(typed)
}

/** The cord that the bench asks for. */
export async function cordAtBench(inspector: Page): Promise<number> {
  return Number(((await inspector.locator('.position').textContent()) ?? '').replace(/\D/g, ''))
}

/** A results file with the same good margins for each position, but for those named to fail. */
export function resultsFile(positions: number[], failing: number[] = []): string {
  const rows = positions.map((position) => {
    const returnLoss = failing.includes(position) ? '-0.4' : '3.1'
    return `${position},4.6,${returnLoss},in order,in order,T-204`
  })
  return ['position,crosstalk margin,return loss margin,wire map,visual,tester serial', ...rows].join('\n')
}

export async function pasteFile(inspector: Page, lotId: number, text: string): Promise<void> {
  await inspector.goto(`/lots/${lotId}/file`)
  await inspector.getByLabel('Or paste its lines here').fill(text)
  await press(inspector, 'Record this file')
}

/** The manager signs with the password. */
export async function sign(manager: Page, choice: string | RegExp, button: string, password = PASSWORD): Promise<void> {
  await manager.getByRole('radio', { name: choice }).check()
  await manager.getByLabel('Your password, as your signature').fill(password)
  await press(manager, button)
}

/** At the bench: what is the matter with the cord that comes next. */
export async function cannotBeTested(inspector: Page, matter: string, happened: string): Promise<void> {
  await inspector.getByText('This cord cannot be tested').click()
  await inspector.getByLabel(matter).check()
  await fillIn(inspector, { 'What happened': happened })
  await press(inspector, 'Record it without readings')
}

/** From the lot's page: the manager's ruling on a cord that is not decided. */
export async function ruleOn(manager: Page, position: number, ruling: string): Promise<void> {
  await manager.locator(`a[href$="/cords/${position}"]`).first().click()
  await manager.getByLabel(ruling).check()
  await fillIn(manager, { Why: 'Left its rack with a visitor, whoever it was' })
  await press(manager, 'Rule on this cord')
}

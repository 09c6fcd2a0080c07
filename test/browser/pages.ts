// A record in which every page of the service has something to show, and the paths to them all.
import { randomUUID } from 'node:crypto'
import { closeLot } from '../../app/lots/acts/close.ts'
import { correctResult } from '../../app/lots/acts/correct-result.ts'
import { type DecisionChoice, decideLot } from '../../app/lots/acts/decide.ts'
import { recordResult } from '../../app/lots/acts/record-result.ts'
import { withdrawLot } from '../../app/lots/acts/withdraw.ts'
import { factsOf } from '../../app/lots/record/lot.ts'
import { offerSetUp } from '../../app/people/accounts/set-up.ts'
import type { Person } from '../../app/terms/person.ts'
import type { Db } from '../../db/client.ts'
import {
  announcedLot,
  clear,
  drawnLot,
  failing,
  plannedLot,
  receivedLot,
  recordAll,
  signature,
  testedLot,
  toTest,
} from '../support/lot.ts'
import { type ThreePeople, threePeople } from '../support/people.ts'

export type PageToSee = { path: string; as: Person | undefined }

/** Fills an empty database; returns every page with somebody who may see it. */
export async function everyPage(db: Db): Promise<PageToSee[]> {
  const setUp = await offerSetUp(db)
  const three = await threePeople(db)
  const { officer, inspector, manager } = three
  const { testing, missing, corrected } = await lotInTesting(db, three)
  const tested = await testedLot(db, three, 2)
  const screened = await decided(db, three, 2, { outcome: 'screened' })
  await recordAll(db, three, screened, 1)
  const sorted = await decided(db, three, 2, { outcome: 'screened' })
  await recordAll(db, three, sorted, 1)
  await closeLot(db, manager, sorted, { ...(await signature(db, sorted)), outcome: 'sorted' })
  const screening = await decided(db, three, 2, { outcome: 'screened' })
  const conceded = await decided(db, three, 1, { outcome: 'conceded', concession })
  const withdrawn = await announcedLot(db, three)
  await withdrawLot(db, manager, withdrawn, { ...(await signature(db, withdrawn)), reason: 'Announced twice' })
  const announced = await announcedLot(db, three)
  const received = await receivedLot(db, three)
  const planned = await plannedLot(db, three)
  const { twoSamples, oneByOne } = await lotsInStages(db, three)
  const { supplier, item } = await factsOf(db, sorted)
  const seen = (as: Person | undefined, paths: string[]) => paths.map((path) => ({ path, as }))
  return [
    ...seen(undefined, ['/', '/?lot=480&limit=5&good=1&own=50/1', '/?lot=0&limit=x', '/proof']),
    ...seen(undefined, ['/proof?lot=480&tested=48&found=2', '/sign-in', `/set-up/${setUp}`, '/nowhere']),
    ...seen(officer, ['/lots', '/lots/new', `/lots/${announced}/correction`, `/lots/${received}`]),
    ...seen(officer, [
      `/lots/${received}/plan`,
      `/lots/${received}/plan?good=1&own=50/1&percent=x`,
      `/lots/${announced}/plan?mean=2`,
      '/items',
    ]),
    ...seen(officer, ['/items/new', `/items/${item.id}`, '/suppliers', `/suppliers/${supplier.id}`, '/audit']),
    ...seen(officer, [`/percentage?supplier=${supplier.id}`, '/percentage?percent=x']),
    ...seen(officer, [`/lots/${received}/plan?mean=1&worth=50`, `/lots/${oneByOne}`, `/lots/${twoSamples}`]),
    ...seen(inspector, [`/lots/${twoSamples}/draw`, `/lots/${twoSamples}/bench`, `/lots/${oneByOne}/draw`]),
    ...seen(inspector, ['/lots', `/lots/${announced}/receipt`, `/lots/${planned}`, `/lots/${testing}`]),
    ...seen(inspector, [`/lots/${testing}/draw`, `/lots/${testing}/bench`, `/lots/${testing}/bench?after=${missing}`]),
    ...seen(inspector, [`/lots/${testing}/file`, `/lots/${testing}/cords/${corrected}`, `/lots/${screening}`]),
    ...seen(inspector, [`/lots/${screening}/bench`, `/lots/${withdrawn}`, '/people']),
    ...seen(manager, [
      `/lots/${testing}/cords/${missing}`,
      `/lots/${testing}/withdrawal`,
      `/lots/${tested}`,
      '/people',
    ]),
    ...seen(manager, [`/lots/${tested}/decision`, `/lots/${screened}/closing`, `/lots/${sorted}`, `/lots/${conceded}`]),
    ...seen(manager, ['/suppliers/comparison', '/percentage', `/suppliers/${supplier.id}`, '/lots/calibration']),
    ...seen(manager, [`/lots/${sorted}/evidence`, `/lots/${sorted}/evidence/screening`, `/lots/${sorted}/taken-out`]),
  ]
}

const concession = {
  riskBearer: 'Head of the test house',
  use: 'Indicator boards in the test house',
  cords: 23,
  until: '2027-03-31',
}

/** One cord missing, one failing, one marginal after a correction, the others not tested yet. */
async function lotInTesting(db: Db, three: ThreePeople) {
  const { inspector } = three
  const lotId = await drawnLot(db, three)
  const [first = 0, second = 0, third = 0] = await toTest(db, lotId)
  await recordResult(db, inspector, lotId, {
    key: randomUUID(),
    position: first,
    kind: 'gone',
    note: 'An empty place',
  })
  await recordResult(db, inspector, lotId, { key: randomUUID(), position: second, ...failing })
  await recordResult(db, inspector, lotId, { key: randomUUID(), position: third, ...clear, spool: 'S 4' })
  const correction = { key: randomUUID(), position: third, entryNumber: 1, reason: 'The neighbour’s figure' }
  await correctResult(db, inspector, lotId, { ...clear, crosstalkMargin: '0.3', spool: 'S 4', ...correction })
  return { testing: lotId, missing: first, corrected: third }
}

const stage = (sampleSize: number, acceptanceNumber: number, rejectionNumber: number) => ({
  sampleSize,
  acceptanceNumber,
  rejectionNumber,
})

/** A lot that its first sample accepts, and one that is drawn cord by cord. */
async function lotsInStages(db: Db, three: ThreePeople) {
  const double = { kind: 'double', stages: [stage(3, 0, 2), stage(6, 1, 2)] } as const
  const sequential = { kind: 'sequential', stages: [stage(1, -1, 2), stage(2, 0, 2), stage(3, 1, 2)] } as const
  const twoSamples = await drawnLot(db, three, { plan: double })
  for (const position of (await toTest(db, twoSamples)).slice(0, 3))
    await recordResult(db, three.inspector, twoSamples, { key: randomUUID(), position, ...clear })
  return { twoSamples, oneByOne: await drawnLot(db, three, { plan: sequential }) }
}

async function decided(db: Db, three: ThreePeople, found: number, choice: DecisionChoice): Promise<number> {
  const lotId = await testedLot(db, three, found)
  await decideLot(db, three.manager, lotId, { ...(await signature(db, lotId, 'As agreed')), ...choice })
  return lotId
}

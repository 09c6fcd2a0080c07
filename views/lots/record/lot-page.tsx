// One lot's record from top to bottom: announced, received, planned, drawn, tested, decided; the open step holds the next act.

import type { LotFacts } from '../../../app/lots/record/lot.ts'
import type { Role } from '../../../app/terms/person.ts'
import { counted, whole } from '../../figures.ts'
import { Headline } from '../../frame.tsx'
import { type Frame, Page } from '../../layout.tsx'
import { actWords, stateWords } from '../../words/lots.ts'
import { verdictSentence } from '../proven.tsx'
import { AuditTrail } from './audit-lines.tsx'
import { Announced, Planned, Received } from './before.tsx'
import { Decided } from './decided.tsx'
import type { LotRecordProps } from './step.tsx'
import { Drawn, Tested } from './testing.tsx'

export function LotPage({ viewer, firm, done, ...record }: Frame & LotRecordProps) {
  const { lot, roles } = record
  return (
    <Page title={`Lot ${lot.id}`} current="lots" viewer={viewer} firm={firm} done={done}>
      <h1>
        Lot {lot.id} · {lot.item.name} · <a href={`/suppliers/${lot.supplier.id}`}>{lot.supplier.name}</a>
      </h1>
      <Headline answer={headline(lot)}>
        <NextStepButton lot={lot} roles={roles} />
      </Headline>
      <WhoseTurn lot={lot} roles={roles} />
      <Progress lot={lot} />
      <ol class="lot-record">
        <Announced {...record} />
        <Received {...record} />
        <Planned {...record} />
        <Drawn {...record} />
        <Tested {...record} />
        <Decided {...record} />
      </ol>
      <AuditTrail lines={lot.audit} lotId={lot.id} clockBehind={lot.clockBehind} />
    </Page>
  )
}

function headline(lot: LotFacts): string {
  switch (lot.state) {
    case 'announced':
      return `${counted(lot.size, 'cord')} announced, not received yet.`
    case 'received':
      return `${counted(lot.size, 'cord')} received. Choose how many to test.`
    case 'planned':
      return 'The plan is frozen. The cords are not drawn yet.'
    case 'drawn':
      return verdictSentence(lot)
    case 'screening':
      return `Screening: ${counted(lot.progress.toDo, 'cord is', 'cords are')} left to test.`
    case 'screened':
      return `Every cord is tested: ${whole(lot.progress.sampleNonconforming + lot.progress.restNonconforming)} of ${whole(lot.size)} are nonconforming.`
    case 'accepted':
    case 'conceded':
    case 'sorted':
    case 'returned':
    case 'withdrawn':
      return `This lot is ${stateWords[lot.state]}.`
  }
}

/** How far the testing is, where it goes on. */
function Progress({ lot: { state, planProgress, progress, size } }: { lot: LotFacts }) {
  const recorded = state === 'screening' ? progress.sampleRecorded + progress.restRecorded : planProgress?.recorded
  const all = state === 'screening' ? size : (planProgress?.recorded ?? 0) + (planProgress?.left ?? 0)
  if ((state !== 'drawn' && state !== 'screening') || recorded === undefined || all === 0) return null
  return (
    <progress
      class="long"
      value={recorded}
      max={all}
      aria-label={`${whole(recorded)} of ${whole(all)} tested`}
    ></progress>
  )
}

/** For those who may take it; a ruling begins at the cord. */
function NextStepButton({ lot, roles }: { lot: LotFacts; roles: Role[] }) {
  if (!lot.next || !roles.includes(lot.next.role)) return null
  const { act } = lot.next
  const [undecided] = lot.notHad.undecided
  const path = act === 'rule' ? undecided && `cords/${undecided.position}` : pathOf[act]
  return path === undefined ? null : (
    <a class="button" href={`/lots/${lot.id}/${path}`}>
      {actWords[act].doing}
    </a>
  )
}

const pathOf = {
  receive: 'receipt',
  plan: 'plan',
  draw: 'draw/review',
  test: 'bench',
  decide: 'decision',
  screen: 'bench',
  close: 'closing',
} as const

function WhoseTurn({ lot, roles }: { lot: LotFacts; roles: Role[] }) {
  if (!lot.next || roles.includes(lot.next.role)) return null
  const { act } = lot.next
  return (
    <p class="lead">
      {actWords[act].waits}: with {actWords[act].whose}.
    </p>
  )
}

// One lot's record from top to bottom: announced, received, planned, drawn, tested, decided; the open step holds the next act.

import type { LotFacts } from '../../../app/lots/record/lot.ts'
import type { Role } from '../../../app/terms/person.ts'
import { counted, whole } from '../../figures.ts'
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
        Lot {lot.id}: {lot.item.name} from <a href={`/suppliers/${lot.supplier.id}`}>{lot.supplier.name}</a>
      </h1>
      <p class="answer">{headline(lot)}</p>
      <WhoseTurn lot={lot} roles={roles} />
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
      return `${counted(lot.size, 'cord is', 'cords are')} announced.`
    case 'received':
      return `${counted(lot.size, 'cord is', 'cords are')} in the house; how many to test is not chosen yet.`
    case 'planned':
      return 'The plan is frozen; the cords are not drawn yet.'
    case 'drawn':
      return verdictSentence(lot)
    case 'screening':
      return `All the rest is being tested: ${counted(lot.progress.toDo, 'cord is', 'cords are')} left.`
    case 'screened':
      return `Every cord is recorded: ${whole(lot.progress.sampleNonconforming + lot.progress.restNonconforming)} of ${whole(lot.size)} do not conform.`
    case 'accepted':
    case 'conceded':
    case 'sorted':
    case 'returned':
    case 'withdrawn':
      return `This lot is ${stateWords[lot.state]}.`
  }
}

function WhoseTurn({ lot, roles }: { lot: LotFacts; roles: Role[] }) {
  if (!lot.next) return null
  const { act, role } = lot.next
  const [undecided] = lot.notHad.undecided
  return (
    <p>
      {actWords[act].waits}: it waits for {roles.includes(role) ? 'you' : actWords[act].whose}.{' '}
      {act === 'rule' && undecided && (
        <a href={`/lots/${lot.id}/cords/${undecided.position}`}>Cord {whole(undecided.position)} is not decided</a>
      )}
    </p>
  )
}

// The note that goes with the cords: one printed page for the driver, the warehouse and the file.
import type { Note, NoteKind } from '../../app/documents/note.ts'
import { ClauseQuoted } from '../contract-clause.tsx'
import { counted, day, moment, whole } from '../figures.ts'
import { Fact, Facts } from '../form.tsx'
import { type Frame, Page } from '../layout.tsx'
import { planSentence } from '../lots/words.ts'

const titles: Record<NoteKind, string> = {
  release: 'Release note',
  concession: 'Concession note',
  sorting: 'Release and return note',
  return: 'Return note',
}

export function NotePage({ viewer, firm, done, note }: Frame & { note: Note }) {
  const { kind, lotId, decision, clause } = note
  return (
    <Page title={`${titles[kind]}, lot ${lotId}`} current="lots" viewer={viewer} firm={firm} done={done}>
      <article class="document">
        <h1>
          {titles[kind]} · <a href={`/lots/${lotId}`}>Lot {lotId}</a>
        </h1>
        <p class="answer">{answerIn(note)}</p>
        <WhatItIs note={note} />
        <Concession decision={decision} />
        {decision.reason && <p>Reason: {decision.reason}</p>}
        <ClauseQuoted clause={clause} />
        <Facts>
          <Fact name="Decided and signed">
            {decision.by}, {moment(decision.at)}
          </Fact>
          <Fact name="Taken over by, date, signature">
            <span class="to-fill"></span>
          </Fact>
        </Facts>
        <p class="caution">
          The numbers hold as far as the tester and the cord limit set were right. Test cords unpowered. Contract, local
          codes and licensed practice decide on their use.
        </p>
      </article>
      <p class="screen-only">Print this page: it fits one sheet of A4 or Letter.</p>
    </Page>
  )
}

function WhatItIs({ note }: { note: Note }) {
  const { supplier, item, purchaseOrder, productionMark, cordLimit, plan, decision } = note
  return (
    <Facts>
      <Fact name="Supplier">{supplier}</Fact>
      <Fact name="Item">{item}</Fact>
      <Fact name="Purchase order, production mark">
        {purchaseOrder}, {productionMark}
      </Fact>
      <Fact name="Cord limit">{cordLimit}</Fact>
      <Fact name="Plan">{planSentence(plan)}</Fact>
      <Fact name="Tested, nonconforming">
        {whole(decision.recorded)}, {whole(decision.found)}
      </Fact>
      <Fact name="Nonconforming in the lot">{boundIn(note)}</Fact>
      <Fact name="Cords">
        {whole(note.balance.received)} received = {whole(note.balance.kept)} kept + {whole(note.balance.sentBack)} sent
        back + {whole(note.balance.missing)} missing
      </Fact>
    </Facts>
  )
}

function answerIn({ kind, balance, goingBack, decision }: Note): string {
  switch (kind) {
    case 'release':
      return `${counted(balance.kept, 'cord')} released for use.`
    case 'concession':
      return `${counted(decision.concession?.cords ?? balance.kept, 'cord')} released by concession, for the use below alone.`
    case 'sorting':
      return `${counted(balance.kept, 'cord')} released for use; ${whole(goingBack)} go back.`
    case 'return':
      return `${counted(goingBack, 'cord')} go back: the lot is not accepted.`
  }
}

function boundIn({ whole: all, decision: { found, upperInLot } }: Note): string {
  return all
    ? `${whole(found)}: every cord was tested`
    : `at most ${whole(upperInLot)} when signed (95 % confidence, exact)`
}

function Concession({ decision: { concession } }: Pick<Note, 'decision'>) {
  if (!concession) return null
  return (
    <Facts>
      <Fact name="Who bears the risk and agreed">{concession.riskBearer}</Fact>
      <Fact name="For which use">{concession.use}</Fact>
      <Fact name="How many cords, until when">
        {counted(concession.cords, 'cord')}, until {day(concession.until)}
      </Fact>
    </Facts>
  )
}

// One cord's record: the entry that stands, those before it, its correction, and a stand-in for it.

import type { Problems, Typed } from '../../../app/kit/problems.ts'
import type { CordRecord } from '../../../app/lots/record/cord.ts'
import type { EarlierEntry, EntryFacts } from '../../../app/lots/record/entry-facts.ts'
import type { LotRecord } from '../../../app/lots/record/lot.ts'
import type { CordFacts } from '../../../app/lots/record/pick-list.ts'
import type { Role } from '../../../app/terms/person.ts'
import { moment, whole } from '../../figures.ts'
import { Fact, Facts, FormKey, ProblemSummary, TextArea } from '../../form.tsx'
import { type Frame, Page } from '../../layout.tsx'
import { findingSentence } from '../../words/findings.ts'
import { mayDo } from '../may.ts'
import { placeWords, stageWords } from '../words.ts'
import { entryAsTyped, ReadingFields, UntestedFields } from './reading.tsx'
import { EntryState, entryDigits, entryMarks } from './result.tsx'

type Props = Frame & {
  roles: Role[]
  lot: LotRecord
  cord: CordRecord
  formKeys: { tested: string; untested: string; standIn: string }
  problems?: Problems | undefined
  typed?: Typed | undefined
}

export function CordPage({ viewer, firm, roles, lot, cord, formKeys, problems, typed }: Props) {
  const { result } = cord
  const stands = cord.replacedBy === undefined
  const correctable = stands && mayDo('amend', { lot, roles })
  const replaceable = stands && mayDo('stand-in', { lot, roles })
  return (
    <Page title={`Cord ${cord.position} of lot ${lot.id}`} current="lots" viewer={viewer} firm={firm}>
      <h1>
        Cord {whole(cord.position)} of <a href={`/lots/${lot.id}`}>lot {lot.id}</a>
      </h1>
      <ProblemSummary problems={problems} />
      <Whence cord={cord} lot={lot} />
      {result ? <Standing result={result} /> : <p>Nothing is recorded of this cord yet.</p>}
      {cord.earlier.length > 0 && <Earlier entries={cord.earlier} />}
      {result && replaceable && result.reading.kind !== 'tested' && (
        <StandIn lot={lot} cord={cord} formKey={formKeys.standIn} />
      )}
      {result && correctable && (
        <Correction lot={lot} cord={cord} result={result} formKeys={formKeys} problems={problems} typed={typed} />
      )}
      <p class="screen-only">
        <a href={`/lots/${lot.id}/draw`}>All drawn cords</a>
      </p>
    </Page>
  )
}

const purposes = { sample: 'drawn in the sample', 'stand-in': 'a stand-in', rest: 'one of the rest, screened' }

function Whence({ cord, lot: { id: lotId, plan } }: { cord: CordFacts; lot: LotRecord }) {
  const stage = plan && cord.stage !== undefined ? stageWords(plan, cord.stage) : undefined
  return (
    <Facts>
      <Fact name="Where it lies">{placeWords(cord)}</Fact>
      <Fact name="How it was chosen">
        {purposes[cord.purpose]}
        {cord.pick !== undefined && `, pick ${whole(cord.pick)} of the draw`}
        {stage && `, ${stage}`}
        {cord.standsInFor !== undefined && (
          <>
            , for <a href={`/lots/${lotId}/cords/${cord.standsInFor}`}>cord {whole(cord.standsInFor)}</a>
          </>
        )}
      </Fact>
      {cord.replacedBy !== undefined && (
        <Fact name="Stand-in">
          <a href={`/lots/${lotId}/cords/${cord.replacedBy}`}>cord {whole(cord.replacedBy)}</a> counts in its place
        </Fact>
      )}
    </Facts>
  )
}

function Standing({ result }: { result: EntryFacts }) {
  const marks = entryMarks(result.reading)
  return (
    <section>
      <p class="verdict">
        <EntryState entry={result} />
      </p>
      {result.findings.map((finding) => (
        <p>{findingSentence(finding)}</p>
      ))}
      <Facts>
        {result.reading.kind === 'tested' && <Fact name="As entered">{entryDigits(result.reading)}</Fact>}
        {marks && <Fact name="Marks">{marks}</Fact>}
        <Fact name="Recorded">
          by {result.recordedBy}, {moment(result.recordedAt)}
          {result.entry > 1 && `, entry ${whole(result.entry)}`}
        </Fact>
      </Facts>
    </section>
  )
}

function Earlier({ entries }: { entries: EarlierEntry[] }) {
  return (
    <section>
      <h2>Entries before</h2>
      <ol>
        {entries.map((entry) => (
          <li>
            <EntryState entry={entry} />: {entryDigits(entry.reading)}
            <small>
              {' '}
              Recorded by {entry.recordedBy}, {moment(entry.recordedAt)}. Corrected by {entry.correctedBy},{' '}
              {moment(entry.correctedAt)}: {entry.correctionReason}
            </small>
          </li>
        ))}
      </ol>
    </section>
  )
}

function StandIn({ lot, cord, formKey }: { lot: LotRecord; cord: CordFacts; formKey: string }) {
  return (
    <section>
      <h2>Let another cord stand in</h2>
      <p>
        This cord counts as not conforming. You may let the next position of the same recorded draw stand in for it: a
        cord that chance chose, not one that is easy to reach. Both stay on the record, and the lot’s page says that the
        sample is not the drawn one any more.
      </p>
      <form method="post" action={`/lots/${lot.id}/cords/${cord.position}/stand-in`}>
        <FormKey value={formKey} />
        <button type="submit">Let the next drawn position stand in</button>
      </form>
    </section>
  )
}

type CorrectionProps = Pick<Props, 'lot' | 'cord' | 'formKeys' | 'problems' | 'typed'> & { result: EntryFacts }

function Correction({ lot, cord, result, formKeys, problems, typed }: CorrectionProps) {
  const kept = typed ?? entryAsTyped(result.reading)
  const untested = kept.kind !== 'tested'
  const path = `/lots/${lot.id}/cords/${cord.position}/correction`
  const entryNumber = typed?.entryNumber ?? result.entry
  const parts = { problems, typed: kept }
  return (
    <section id="correction">
      <h2>Correct this entry</h2>
      <p>The entry that stands now stays readable with its reason.</p>
      <details open={!untested}>
        <summary>It was tested</summary>
        <form method="post" action={path}>
          <FormKey value={formKeys.tested} />
          <input type="hidden" name="kind" value="tested" />
          <input type="hidden" name="entryNumber" value={entryNumber} />
          <ReadingFields typed={untested ? {} : kept} problems={untested ? undefined : problems} />
          <Reason
            id={untested ? 'field-other-reason' : 'field-reason'}
            {...(untested ? { problems: undefined, typed: {} } : parts)}
          />
          <button type="submit">Correct it</button>
        </form>
      </details>
      <details open={untested}>
        <summary>It is missing or cannot be tested</summary>
        <form method="post" action={path}>
          <FormKey value={formKeys.untested} />
          <input type="hidden" name="entryNumber" value={entryNumber} />
          <UntestedFields typed={untested ? kept : {}} problems={untested ? problems : undefined} />
          <Reason
            id={untested ? 'field-reason' : 'field-other-reason'}
            {...(untested ? parts : { problems: undefined, typed: {} })}
          />
          <button type="submit">Correct it to not tested</button>
        </form>
      </details>
    </section>
  )
}

function Reason({ id, typed, problems }: { id: string; typed: Typed; problems: Problems | undefined }) {
  return (
    <TextArea
      id={id}
      name="reason"
      label="Why it is corrected"
      value={typed.reason}
      problem={problems?.reason}
      rows={2}
      maxlength={500}
      required
    />
  )
}

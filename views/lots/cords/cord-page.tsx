// One cord's record: the entry that stands, those before it, its correction, and the manager's ruling on it.
import type { Child } from 'hono/jsx'
import { lengths } from '../../../app/kit/limits.ts'
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
import { countsIn } from './cannot-test.tsx'
import { entryAsTyped, ReadingFields, UntestedFields } from './reading.tsx'
import { EntryState, entryDigits, entryMarks } from './result.tsx'
import { Ruled, RulingNeeded } from './ruling.tsx'

type Props = Frame & {
  roles: Role[]
  lot: LotRecord
  cord: CordRecord
  formKeys: { tested: string; untested: string; ruling: string }
  problems?: Problems | undefined
  typed?: Typed | undefined
}

export function CordPage({ viewer, firm, done, roles, lot, cord, formKeys, problems, typed }: Props) {
  const { result } = cord
  const stands = cord.replacedBy === undefined
  const ruling = lot.notHad.rulings.find(({ position }) => position === cord.position)
  const settled = ruling !== undefined || result?.standing === 'aside'
  const correctable = stands && !settled && mayDo('amend', { lot, roles })
  return (
    <Page title={`Cord ${cord.position} of lot ${lot.id}`} current="lots" viewer={viewer} firm={firm} done={done}>
      <h1>
        Cord {whole(cord.position)} of <a href={`/lots/${lot.id}`}>lot {lot.id}</a>
      </h1>
      <ProblemSummary problems={problems} />
      <Whence cord={cord} lot={lot} />
      {result ? <Standing result={result} /> : <p>Nothing is recorded of this cord yet.</p>}
      {cord.earlier.length > 0 && <Earlier entries={cord.earlier} />}
      {ruling && <Ruled ruling={ruling} />}
      {result?.standing === 'undecided' && (
        <RulingNeeded {...{ lot, cord, roles, problems, typed }} entry={result.entry} formKey={formKeys.ruling} />
      )}
      {result && correctable && (
        <Correction
          {...{ lot, cord, result, formKeys }}
          {...(typed?.ruling === undefined ? { problems, typed } : {})}
        />
      )}
      <p class="screen-only">
        <a href={`/lots/${lot.id}/draw`}>All drawn cords</a>
      </p>
    </Page>
  )
}

const purposes = { sample: 'drawn in the sample', 'stand-in': 'a reserve', rest: 'one of the rest, screened' }

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
        <Fact name="Reserve">
          <a href={`/lots/${lotId}/cords/${cord.replacedBy}`}>cord {whole(cord.replacedBy)}</a> is tested in its place
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

type CorrectionProps = Pick<Props, 'lot' | 'cord' | 'formKeys' | 'problems' | 'typed'> & { result: EntryFacts }

function Correction({ lot, cord, result, formKeys, problems, typed }: CorrectionProps) {
  const kept = typed ?? entryAsTyped(result.reading)
  const untested = kept.kind !== 'tested'
  const entryNumber = typed?.entryNumber ?? result.entry
  const told = (open: boolean) => (open ? { problems, typed: kept } : { problems: undefined, typed: {} })
  const part = { path: `/lots/${lot.id}/cords/${cord.position}/correction`, entryNumber }
  return (
    <section id="correction">
      <h2>Correct this entry</h2>
      <p>The entry that stands now stays readable with its reason.</p>
      <CorrectionForm {...part} formKey={formKeys.tested} name="It was tested" open={!untested} {...told(!untested)}>
        <input type="hidden" name="kind" value="tested" />
        <ReadingFields {...told(!untested)} />
      </CorrectionForm>
      <CorrectionForm
        {...part}
        formKey={formKeys.untested}
        name="It cannot be tested"
        open={untested}
        {...told(untested)}
      >
        <UntestedFields {...told(untested)} counts={countsIn(lot)} />
      </CorrectionForm>
    </section>
  )
}

type CorrectionFormProps = {
  path: string
  entryNumber: number | string
  formKey: string
  name: string
  open: boolean
  typed: Typed
  problems: Problems | undefined
  children?: Child
}

function CorrectionForm({ path, entryNumber, formKey, name, open, typed, problems, children }: CorrectionFormProps) {
  return (
    <details open={open}>
      <summary>{name}</summary>
      <form method="post" action={path}>
        <FormKey value={formKey} />
        <input type="hidden" name="entryNumber" value={entryNumber} />
        {children}
        <Reason id={open ? 'field-reason' : 'field-other-reason'} typed={typed} problems={problems} />
        <button type="submit">Correct it</button>
      </form>
    </details>
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
      maxlength={lengths.note}
      required
    />
  )
}

// Who did what when, the newest first: sentences, filters in a panel, sign-ins apart.
import type { AuditLine } from '../../app/audit/list.ts'
import type { Problems, Typed } from '../../app/kit/problems.ts'
import { auditActions, signInActions } from '../../app/terms/actions.ts'
import { lasting, moment } from '../figures.ts'
import { Field, ProblemSummary, Select } from '../form.tsx'
import { Columns } from '../frame.tsx'
import { type Frame, Page } from '../layout.tsx'
import { actionWords, didWords, subjectWords } from '../words/audit.ts'
import { Detail } from './detail.tsx'

type Props = Frame & {
  /** as the address holds it */
  typed: Typed
  people: string[]
  lines: AuditLine[]
  /** id to go on from, where there are older lines */
  older?: number | undefined
  problems?: Problems | undefined
}

export function AuditPage({ typed, people, lines, older, problems, viewer, firm, done }: Props) {
  const signIns = typed.signins === 'yes'
  return (
    <Page title="Audit" current="audit" viewer={viewer} firm={firm} done={done}>
      <Columns
        side="left"
        summary="Filter"
        open={problems !== undefined}
        panel={<Filters typed={typed} people={people} problems={problems} />}
      >
        <h1>{signIns ? 'Audit · Sign-ins' : 'Audit'}</h1>
        <p class="lead">
          Each entry was saved together with the change it describes. Nobody can change or remove one.{' '}
          <a href={signIns ? '/audit' : '/audit?signins=yes'}>{signIns ? 'What was done' : 'Sign-ins'}</a>
        </p>
        {lines.length === 0 ? <p>There is no such entry.</p> : <Lines lines={lines} />}
        {older !== undefined && (
          <p>
            <a href={olderAddress(typed, older)}>Older entries</a>
          </p>
        )}
      </Columns>
    </Page>
  )
}

function Filters({ typed, people, problems }: Pick<Props, 'typed' | 'people' | 'problems'>) {
  const of = (name: string) => ({ name, value: typed[name], problem: problems?.[name] })
  const signIns: readonly string[] = signInActions
  const acts = auditActions.filter((action) => !signIns.includes(action))
  return (
    <form method="get" action="/audit">
      <h2>Which entries</h2>
      <ProblemSummary problems={problems} />
      {typed.signins === 'yes' && <input type="hidden" name="signins" value="yes" />}
      <Field {...of('lot')} label="Lot" size="short" inputmode="numeric" />
      <Select
        {...of('person')}
        label="Who"
        first="Everybody"
        options={people.map((name) => ({ value: name, label: name }))}
      />
      {typed.signins !== 'yes' && (
        <Select
          {...of('act')}
          label="Did what"
          first="Everything"
          options={acts.map((action) => ({ value: action, label: actionWords[action] }))}
        />
      )}
      <Field {...of('from')} label="From" type="date" size="short" />
      <Field {...of('until')} label="Until" type="date" size="short" />
      <button type="submit">Show</button>
    </form>
  )
}

function Lines({ lines }: { lines: AuditLine[] }) {
  return (
    <ol class="trail">
      {lines.map((line) => (
        <li id={`line-${line.id}`}>
          <Sentence line={line} /> <Detail of={line.detail} action={line.action} />
        </li>
      ))}
    </ol>
  )
}

function Sentence({ line: { at, personName, personRole, action, subject, clockBehind } }: { line: AuditLine }) {
  const [lot] = /^lot\/\d+/.exec(subject) ?? []
  return (
    <>
      <small>
        {clockBehind === null ? moment(at) : `${moment(at)} (the clock stood ${lasting(clockBehind)} behind)`}
      </small>{' '}
      <b>{personRole === null ? personName : `${personName}, ${personRole}`}</b> {didWords(action)}:{' '}
      {lot ? <a href={`/${lot.replace('lot', 'lots')}`}>{subjectWords(subject)}</a> : subjectWords(subject)}.
    </>
  )
}

function olderAddress(typed: Typed, older: number): string {
  const said = new URLSearchParams()
  for (const [name, value] of Object.entries(typed)) if (value && name !== 'before') said.set(name, value)
  said.set('before', String(older))
  return `/audit?${said}`
}

// The advisor's questions in a panel, one a row; the address holds them all. Answers follow what is typed where scripts run.
import type { AnsweredQuestion } from '../../app/advisor/answered.ts'
import type { QuestionText } from '../../app/advisor/question.ts'
import type { Problems } from '../../app/kit/problems.ts'
import { money, percent, whole } from '../figures.ts'
import { ProblemSummary, ShortField } from '../form.tsx'
import { LiveForm } from '../live-form.tsx'

type Name = keyof QuestionText
type Props = {
  asked: QuestionText
  currency: string
  problems: Problems | undefined
  advice: AnsweredQuestion | undefined
}

export function QuestionForm({ asked, currency, problems = {}, advice }: Props) {
  const ask = askedBy(asked, problems)
  return (
    <LiveForm path="/">
      <ProblemSummary problems={problems} />
      {ask('lot', 'Cords in the lot')}
      {ask('limit', 'Nonconforming cords that are too many', 'a number or a share: 2 %')}
      {ask('confidence', 'Of 100 such lots, catch')}
      {ask('percent', 'What I do today', 'a percentage, a plan such as 50/1, or nothing')}
      <MoreQuestions asked={asked} currency={currency} problems={problems} advice={advice} />
      <button type="submit">Work it out</button>
    </LiveForm>
  )
}

function MoreQuestions({ asked, currency, problems = {}, advice }: Props) {
  const ask = askedBy(asked, problems)
  return (
    <>
      <details open={isOpen(folds.good, asked, problems)}>
        <summary>Good lots and contract plan</summary>
        {ask('good', 'A good lot has at most', 'nonconforming cords; empty: 1, demanded by nobody')}
        {ask('goodrisk', 'Of 100 good lots, reject at most')}
        {ask('own', 'The contract’s plan', 'cords / number allowed, such as 50/1')}
        {ask('aql', 'Acceptance quality limit of ISO 2859-1', 'such as 0.65; empty: not compared')}
        {ask('level', 'Inspection level')}
        {ask('severity', 'Inspection', 'normal, tightened or reduced')}
      </details>
      <details open={isOpen(folds.effort, asked, problems)}>
        <summary>Bench time and costs</summary>
        {ask('rate', 'Cords tested in an hour')}
        {ask('test', `Cost of a test, ${currency}`)}
      </details>
      <details open={isOpen(folds.escape, asked, problems)}>
        <summary>Help me choose what is too many</summary>
        {ask('escape', `Cost of a nonconforming cord in use, ${currency}`, 'trace, replace, downtime')}
        <BreakEven advice={advice} currency={currency} />
      </details>
    </>
  )
}

const folds: Record<'good' | 'effort' | 'escape', readonly Name[]> = {
  good: ['good', 'goodrisk', 'own', 'aql', 'level', 'severity'],
  effort: ['rate', 'test'],
  escape: ['escape'],
}

/** These are empty until the reader says something; the others have a usual value. */
const emptyAtFirst: readonly Name[] = ['good', 'own', 'aql', 'escape']

/** A fold is open where something in it was asked, or is wrong. */
function isOpen(names: readonly Name[], asked: QuestionText, problems: Problems): boolean {
  return names.some((name) => problems[name] !== undefined || (emptyAtFirst.includes(name) && asked[name] !== ''))
}

/** One question by its name. */
function askedBy(asked: QuestionText, problems: Problems) {
  return (name: Name, label: string, hint?: string) => (
    <ShortField name={name} label={label} hint={hint} value={asked[name]} problem={problems[name]} />
  )
}

/** The least that "too many" can sensibly be; it fills no field in. */
function BreakEven({ advice, currency }: { advice: AnsweredQuestion | undefined; currency: string }) {
  if (!advice?.leastSensible)
    return <p>With it, this says from how many nonconforming cords on a test is worth its cost.</p>
  const { question, leastSensible } = advice
  const { fraction, cords } = leastSensible
  const { testCents, escapeCents = 0 } = question.effort
  if (cords > question.lotSize) return <p>A test costs as much as such a cord or more: on cost alone no test pays.</p>
  return (
    <p>
      A test at {money(testCents, currency)} is worth its cost where more than {percent(fraction)} of the cords are
      nonconforming, at {money(escapeCents, currency)} each. Of {whole(question.lotSize)} cords, fewer than{' '}
      {whole(cords)} should not be called too many on cost alone.
    </p>
  )
}

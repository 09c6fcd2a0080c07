// The advisor's question as sentences with gaps in them; the address holds the answer's whole question.
import type { QuestionText } from '../../app/advisor/question.ts'
import type { Problems } from '../../app/kit/problems.ts'
import { Blank, BlankProblem, ProblemSummary } from '../form.tsx'

type Props = { asked: QuestionText; problems: Problems | undefined }

export function QuestionForm({ asked, problems = {} }: Props) {
  const { gap, wrong } = gapsOf(asked, problems)
  return (
    <form action="/" method="get" hx-get="/" hx-target="main" hx-select="main" hx-swap="outerHTML" hx-push-url="true">
      <ProblemSummary problems={problems} />
      <p class="ask">
        A lot of {gap('lot', 'Lot size')} cords. {gap('limit', 'Too many')} or more that do not conform (a number, or a
        share such as 1%) are too many. I want to catch such a lot {gap('confidence', 'Times in 100 to catch it')} times
        in 100. Today I test {gap('percent', 'What is tested today: a share, a plan such as 50/1, or nothing')} (10%, a
        plan such as 50/1, or nothing).
      </p>
      {wrong('lot', 'limit', 'confidence', 'percent')}
      <MoreOptions asked={asked} problems={problems} />
      <p class="actions">
        <button type="submit">Work it out</button>
      </p>
    </form>
  )
}

function MoreOptions({ asked, problems }: { asked: QuestionText; problems: Problems }) {
  const { gap, wrong } = gapsOf(asked, problems)
  return (
    <details open={isOpen(asked, problems)}>
      <summary>More options: good lots, the contract’s plan, the standard’s plan</summary>
      <p class="ask">
        A lot with only {gap('good', 'Number that should rarely be sent back')} that do not conform should be sent back
        at most {gap('goodrisk', 'Times in 100 it may be sent back')} times in 100.
      </p>
      {wrong('good', 'goodrisk')}
      <p class="ask">
        My contract names the plan {gap('own', 'The contract’s plan, cords to test / acceptance number')}.
      </p>
      {wrong('own')}
      <p class="ask">
        Show the standard’s plan for the acceptance quality limit {gap('aql', 'Acceptance quality limit')} at level{' '}
        {gap('level', 'Inspection level')}, {gap('severity', 'Inspection: normal, tightened or reduced')} inspection.
      </p>
      {wrong('aql', 'level', 'severity')}
      <p>
        <small>
          If you leave the first field empty, the table assumes good lots hold 1 nonconforming cord. A plan is written
          cords to test / acceptance number, such as 50/1. Limits are those of ISO 2859-1, such as 0.65 or 1.0.
        </small>
      </p>
    </details>
  )
}

function gapsOf(asked: QuestionText, problems: Problems) {
  const gap = (name: keyof QuestionText, label: string) => (
    <Blank name={name} label={label} value={asked[name]} problem={problems[name]} inputmode={inputmodes[name]} />
  )
  const wrong = (...names: (keyof QuestionText)[]) =>
    names.map((name) => <BlankProblem name={name} problem={problems[name]} />)
  return { gap, wrong }
}

const optional = ['good', 'goodrisk', 'own', 'aql', 'level', 'severity'] as const

/** Where something in the fold was asked, or is wrong. */
function isOpen(asked: QuestionText, problems: Problems): boolean {
  const said = asked.good !== '' || asked.own !== '' || asked.aql !== ''
  return said || optional.some((name) => problems[name] !== undefined)
}

const inputmodes = {
  lot: 'numeric',
  limit: 'text',
  confidence: 'decimal',
  good: 'text',
  goodrisk: 'decimal',
  percent: 'text',
  own: 'text',
  aql: 'decimal',
  level: 'text',
  severity: 'text',
} as const

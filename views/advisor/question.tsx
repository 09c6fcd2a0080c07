// The advisor's question as sentences with gaps in them; the address holds the answer's whole question.
import type { QuestionText } from '../../app/advisor/question.ts'
import type { Problems } from '../../app/kit/problems.ts'
import { Blank, BlankProblem, ProblemSummary } from '../form.tsx'

type Props = { asked: QuestionText; problems: Problems | undefined }

export function QuestionForm({ asked, problems = {} }: Props) {
  const gap = (name: keyof QuestionText, label: string) => (
    <Blank name={name} label={label} value={asked[name]} problem={problems[name]} inputmode={inputmodes[name]} />
  )
  const wrong = (...names: (keyof QuestionText)[]) =>
    names.map((name) => <BlankProblem name={name} problem={problems[name]} />)
  return (
    <form action="/" method="get" hx-get="/" hx-target="main" hx-select="main" hx-swap="outerHTML" hx-push-url="true">
      <ProblemSummary problems={problems} />
      <p class="ask">
        A lot of {gap('lot', 'Lot size')} cords. {gap('limit', 'Too many')} or more that do not conform (a number, or a
        share such as 1%) are too many. I want to catch such a lot {gap('confidence', 'Times in 100 to catch it')} times
        in 100. Today I test {gap('percent', 'Percent tested today')} %.
      </p>
      {wrong('lot', 'limit', 'confidence', 'percent')}
      <details open={asked.good !== '' || asked.own !== '' || Object.keys(problems).some((name) => optional.has(name))}>
        <summary>Which lots should rarely be sent back, and what does a contract name?</summary>
        <p class="ask">
          A lot with only {gap('good', 'Number that should rarely be sent back')} that do not conform should be sent
          back at most {gap('goodrisk', 'Times in 100 it may be sent back')} times in 100.
        </p>
        {wrong('good', 'goodrisk')}
        <p class="ask">
          My contract names the plan {gap('own', 'The contract’s plan, cords to test / acceptance number')}.
        </p>
        {wrong('own')}
        <p>
          <small>
            Left empty, the first demands nothing and the table reckons with lots that hold 1. A plan is written cords
            to test / acceptance number, such as 50/1.
          </small>
        </p>
      </details>
      <p class="actions">
        <button type="submit">Work it out</button>
      </p>
    </form>
  )
}

const optional = new Set(['good', 'goodrisk', 'own'])
const inputmodes = {
  lot: 'numeric',
  limit: 'text',
  confidence: 'decimal',
  good: 'text',
  goodrisk: 'decimal',
  percent: 'decimal',
  own: 'text',
} as const

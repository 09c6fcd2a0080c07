// The question of the page "What did my sample prove?" as sentences with gaps; how the sample was taken stands under a fold.
import type { ProofText } from '../../app/advisor/proof-question.ts'
import type { Problems } from '../../app/kit/problems.ts'
import { Blank, BlankProblem, ProblemSummary } from '../form.tsx'

type Name = keyof ProofText
type Props = { asked: ProofText; problems: Problems | undefined }

const always = ['tested', 'lot', 'found', 'confidence', 'claim'] as const
const folded = ['planned', 'rejection', 'first', 'accept', 'firstreject'] as const

export function ProofForm({ asked, problems = {} }: Props) {
  const { gap, wrong } = gapsOf(asked, problems)
  return (
    <form
      action="/proof"
      method="get"
      hx-get="/proof"
      hx-target="main"
      hx-select="main"
      hx-swap="outerHTML"
      hx-push-url="true"
    >
      <ProblemSummary problems={problems} />
      <p class="ask">
        I tested {gap('tested', 'Cords tested')} of {gap('lot', 'Lot size')} cords and{' '}
        {gap('found', 'Cords that did not conform')} did not conform. I want to be right{' '}
        {gap('confidence', 'Times in 100 to be right')} times in 100. I should like to say: fewer than{' '}
        {gap('claim', 'Fewer than this many in the lot')} in the lot (a number, or a share such as 1%).
      </p>
      {wrong(always)}
      <TakenFold asked={asked} problems={problems} />
      <p class="actions">
        <button type="submit">Work it out</button>
      </p>
    </form>
  )
}

/** The plan by which the sample was taken; empty where its size was fixed and all of it tested. */
function TakenFold({ asked, problems }: { asked: ProofText; problems: Problems }) {
  const { gap, wrong } = gapsOf(asked, problems)
  return (
    <details open={folded.some((name) => asked[name] !== '' || problems[name] !== undefined)}>
      <summary>Testing stopped early, or the sample came in two</summary>
      <p class="ask">
        The plan: test {gap('planned', 'Cords that the plan tests in all')} cords in all and reject the lot at the{' '}
        {gap('rejection', 'Number that do not conform at which the lot is rejected')} that does not conform (1 for the
        first).
      </p>
      {wrong(['planned', 'rejection'])}
      <p class="ask">
        In two samples: of these, {gap('first', 'Cords of the first sample')} came first. They accept the lot with at
        most {gap('accept', 'Most that do not conform with which the first sample accepts')} and reject it from{' '}
        {gap('firstreject', 'Number that do not conform at which the first sample rejects')} on.
      </p>
      {wrong(['first', 'accept', 'firstreject'])}
      <p>
        <small>
          Leave all empty if the number to test was fixed and all of it was tested. The counts above are over both
          samples.
        </small>
      </p>
    </details>
  )
}

function gapsOf(asked: ProofText, problems: Problems) {
  const gap = (name: Name, label: string) => (
    <Blank
      name={name}
      label={label}
      value={asked[name]}
      problem={problems[name]}
      inputmode={name === 'claim' ? 'text' : 'decimal'}
    />
  )
  const wrong = (names: readonly Name[]) => names.map((name) => <BlankProblem name={name} problem={problems[name]} />)
  return { gap, wrong }
}

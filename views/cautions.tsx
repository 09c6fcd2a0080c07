// Under what condition a number holds, in one line, wherever a bound or a chance is shown.

/** The condition of every bound and chance. The lot page says beside it whether the draw was kept or broken. */
export function NumbersCondition() {
  return (
    <p class="caution">
      This holds if the tested cords are drawn at random from the whole lot (a top carton says nothing of the rest), and
      as far as the tester and the limit set are right.
    </p>
  )
}

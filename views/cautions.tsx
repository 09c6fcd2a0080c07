// Under what condition a number holds, in one line, wherever a bound or a chance is shown.

/** The condition of every bound and chance. The lot page says beside it whether the draw was kept or broken. */
export function NumbersCondition() {
  return (
    <p class="caution">
      True only if the cords are drawn at random from the whole lot, not from the top carton, and the tester is set to
      the right cord limit.
    </p>
  )
}

import {
  ASYMMETRIC_MATCHERS_OBJECT,
  customMatchers,
  GLOBAL_EXPECT,
  JestAsymmetricMatchers,
  JestChaiExpect,
  JestExtend,
  setState,
} from "@vitest/expect";
import * as chai from "chai";

/**
 * Stands in for vitest while mutants are tried: its own expectations, and tests that only sign themselves up, so that
 * all of them live in one process and a mutant costs no more than the tests that reach it.
 */
function makeExpect() {
  for (const plugin of [JestExtend, JestChaiExpect, JestAsymmetricMatchers]) chai.use(plugin);
  const made = Object.assign(
    (value, message) => chai.expect(value, message),
    chai.expect,
    globalThis[ASYMMETRIC_MATCHERS_OBJECT],
  );
  setState({ assertionCalls: 0, isExpectingAssertions: false }, made);
  globalThis[GLOBAL_EXPECT] = made;
  chai.expect.extend(made, customMatchers);
  return made;
}

globalThis.expectOfTheStandIn ??= makeExpect();
export const expect = globalThis.expectOfTheStandIn;

/** What is signed up: tests, and suites whose bodies the runner calls, so that it knows what they reached. */
globalThis.signedUp ??= [];

export const describe = (name, body) => globalThis.signedUp.push({ name, suite: body });
export const test = (name, body) => globalThis.signedUp.push({ name, body });
/** Signs up a case or a suite for each row. */
const forEachRow = (signUp) => (rows) => (name, body) => {
  rows.forEach((row, i) => {
    signUp(`${name} [${i}]`, () => (Array.isArray(row) ? body(...row) : body(row)));
  });
};
describe.each = forEachRow(describe);
test.each = forEachRow(test);
export const it = test;

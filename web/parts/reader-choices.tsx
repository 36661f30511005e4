import { chooseTheme, theme, themeNames, themes } from "../preferences/theme.ts";
import { chooseUnit, type Quantity, unitChoices, units } from "../preferences/units.ts";
import { Choice } from "./choice.tsx";

export const LightChoice = () => (
  <Choice
    legend="Light"
    choices={themes.map((each) => [each, themeNames[each]] as const)}
    chosen={theme.value}
    onChoose={chooseTheme}
  />
);

export const UnitChoice = ({ legend, quantity }: { legend: string; quantity: Quantity }) => (
  <Choice
    legend={legend}
    choices={unitChoices[quantity].map((unit) => [unit, unit] as const)}
    chosen={units.value[quantity]}
    onChoose={(unit) => chooseUnit(quantity, unit)}
  />
);

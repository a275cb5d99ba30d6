import answer from "../panels/answer/answer.css";
import sheet from "../panels/build/sheet.css";
import sheetOnPaper from "../panels/build/sheetOnPaper.css";
import draw from "../panels/draw/draw.css";
import hear from "../panels/hear/hear.css";
import shortChoices from "../panels/hear/shortChoices.css";
import measure from "../panels/measure/measure.css";
import playerBar from "../panels/playing/playerBar.css";
import playing from "../panels/playing/playing.css";
import question from "../panels/question/question.css";
import reply from "../panels/reply/reply.css";
import rig from "../panels/rig/rig.css";
import field from "../panels/see/field.css";
import see from "../panels/see/see.css";
import soundInput from "../panels/soundInput.css";
import sweep from "../panels/sweep/sweep.css";
import switches from "../panels/switches/switches.css";
import take from "../panels/take/take.css";
import trial from "../panels/trial/trial.css";
import turn from "../panels/turn/turn.css";
import choices from "../widgets/choices.css";
import controls from "../widgets/controls.css";
import figure from "../widgets/plots/figure.css";
import { markColours } from "../widgets/routingMark.js";
import setting from "../widgets/setting.css";
import slider from "../widgets/slider.css";
import table from "../widgets/table.css";
import wiringDiagram from "../widgets/wiringDiagram.css";
import base from "./base.css";
import keyHelp from "./keyHelp.css";
import page from "./page.css";
import preferences from "./preferences.css";
import print from "./print.css";
import theme from "./theme.css";

/** In the order of the cascade: where two rules are equally specific, the later one holds. */
const inOrder = [
  theme,
  base,
  controls,
  table,
  page,
  playing,
  slider,
  playerBar,
  choices,
  question,
  answer,
  hear,
  shortChoices,
  rig,
  turn,
  setting,
  see,
  figure,
  field,
  sweep,
  switches,
  trial,
  soundInput,
  reply,
  take,
  measure,
  sheet,
  wiringDiagram,
  draw,
  keyHelp,
  preferences,
  print,
];

/** All rules of the page, as one text. A bench sheet is tried for its size under the rules of paper before it is printed. */
export const pageStyles = (): string =>
  `${markColours()}\n${inOrder.join("\n")}\n@media print{${sheetOnPaper}}.trial-print{${sheetOnPaper}}`;

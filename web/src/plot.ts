// The part of Observable Plot that the pages draw with, so that the rest is
// not carried. Fetched only where there is a chart.
export {
  areaY, axisX, axisY, barY, dot, gridY, line, lineY, plot, rectY, ruleX, ruleY,
  text, textY,
} from '@observablehq/plot';

// A lesson on paper: its text, cards and charts, without the frame of the application. print.css takes the frame away; what has a width of its own
// is made to fit here, just before.
const PAPER_PX = 690; // inside the margins of A4, the narrower sheet
const DRAWN = ".js-plotly-plot, .kit-marker, .kit-watch";

export function printable({ Printing }, panel) {
  const fit = () => {
    for (const output of panel.node.querySelectorAll(".jp-OutputArea-output")) {
      const width = output.querySelector(DRAWN) && output.clientWidth;
      if (width) output.style.setProperty("--kit-width", `${width}px`);
      if (width > PAPER_PX) output.style.setProperty("--kit-zoom", PAPER_PX / width);
    }
  };
  const print = () => { fit(); window.print(); };
  window.addEventListener("beforeprint", fit);
  panel.disposed.connect(() => window.removeEventListener("beforeprint", fit));
  panel[Printing.symbol] = () => async () => print(); // Ctrl+P and the menu, which would else ask the server for another page
  return print;
}

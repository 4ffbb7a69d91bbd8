// Stylesheet of the report: light, dark, and print.
import { figureStyle } from "../../figures/figureStyle.js";

export const style = `${figureStyle}*{box-sizing:border-box}
html{background:var(--ground);color:var(--ink);font:16px/1.5 ui-sans-serif,system-ui,"Segoe UI","Noto Sans","DejaVu Sans",sans-serif}
body{max-width:62rem;margin:0 auto;padding:1.5rem clamp(.9rem,4vw,2.5rem) 4rem;overflow-wrap:anywhere}
h1,h2,.act{font-family:"Iowan Old Style",Charter,"Palatino Linotype",Palatino,"Noto Serif","DejaVu Serif",Georgia,serif;font-weight:600;line-height:1.2;text-wrap:balance}
h1{font-size:clamp(1.05rem,3.4vw,1.35rem);margin:0}
h2{font-size:1.35rem;margin:3rem 0 .8rem;padding-top:.7rem;border-top:1px solid var(--faint)}
h3{font-size:1rem;margin:1.4rem 0 .4rem}
p{margin:.4rem 0;max-width:46rem}
a{color:var(--primary)}
:focus-visible{outline:3px solid var(--primary);outline-offset:2px;border-radius:2px}
.quiet{color:var(--quiet)}
.skip{position:absolute;left:-99rem}
.skip:focus{left:1rem;top:.5rem;background:var(--ground);padding:.4rem .8rem;z-index:1}
nav ul{display:flex;flex-wrap:wrap;gap:.2rem 1.2rem;list-style:none;margin:.8rem 0 0;padding:0;font-size:.92rem}
header p{margin:.1rem 0;font-size:.9rem}
.verdict h2{margin:.7rem 0 .5rem;padding:0;border:0}
.tiles{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,17rem),1fr));gap:.6rem;margin:.6rem 0}
.tile{background:var(--raised);border-left:6px solid var(--quiet);border-radius:3px;padding:.5rem .9rem .6rem}
.tile.sound{border-left-color:var(--good)}
.tile.off{border-left:6px double var(--alarm)}
.tile h3{margin:0;font-size:.92rem;font-weight:500;color:var(--quiet)}
.tile .what{font-size:1.25rem;font-weight:550;line-height:1.25;margin:.05rem 0 .15rem}
.sound .what{color:var(--good)}
.off .what{color:var(--alarm)}
.salinity{font-size:1.1rem;margin:.6rem 0}
.tile p{margin:.1rem 0;font-size:.92rem}
.sheet{border:1.5px solid var(--ink);border-radius:3px;padding:.2rem clamp(.9rem,3vw,1.6rem) 1.2rem;margin:1.6rem 0 0}
.sheet h2{border:0;margin:.6rem 0 .2rem;padding:0}
.sheet .flow h3{margin:.9rem 0 .3rem}
.sheet .boxes{list-style-position:outside}
.sheet label{display:block}
.sheet input{margin:0 .5rem 0 0;width:1.05rem;height:1.05rem;vertical-align:-.15rem;accent-color:var(--primary)}
ul.boxes{list-style:none;padding-left:0}
ol.boxes{padding-left:1.7rem}
.boxes label{padding-left:1.6rem;text-indent:-1.6rem}
.amounts{width:auto;min-width:min(100%,26rem);margin:.3rem 0 .6rem}
.sign{display:grid;grid-template-columns:max-content 1fr;gap:.5rem .8rem;margin:.4rem 0}
.sign dd{margin:0;border-bottom:1px solid var(--quiet);min-height:1.4rem}
.act{font-size:clamp(1.5rem,5vw,2.1rem);margin:0 0 .3rem}
ol,ul{padding-left:1.3rem;margin:.3rem 0}
li{margin:.22rem 0}
.cautions{border-left:6px solid var(--alarm);padding:.1rem 0 .1rem 1rem;margin:1rem 0 0}
.cautions h3{margin:.1rem 0;color:var(--alarm)}
.cautions li{break-inside:avoid}
figure{margin:2rem 0}
figure svg{display:block;max-width:100%;height:auto}
figure .narrow{display:none}
figcaption{font-size:.95rem;max-width:46rem;margin-bottom:.6rem}
figcaption b{display:block;font-size:1.05rem}
.hint{position:fixed;z-index:2;max-width:min(22rem,80vw);padding:.3rem .6rem;background:var(--raised);color:var(--ink);border:1px solid var(--quiet);border-radius:3px;font-size:.85rem;white-space:pre-line;pointer-events:none}
.hint[hidden]{display:none}
.scroll{overflow-x:auto;margin:.6rem 0}
table{border-collapse:collapse;font-size:.9rem;font-variant-numeric:tabular-nums;width:100%}
caption{text-align:left;color:var(--quiet);padding-bottom:.4rem}
th,td{text-align:left;vertical-align:top;padding:.32rem .8rem .32rem 0;border-bottom:1px solid var(--faint);overflow-wrap:normal}
thead th{border-bottom:1.5px solid var(--ink);font-weight:600}
td.number,th.number{text-align:right;white-space:nowrap}
th[colspan]{text-align:center;border-bottom:1px solid var(--faint)}
th[rowspan]{vertical-align:bottom}
td.state{min-width:8rem}
tr.chosen{background:var(--target)}
tr.chosen th,tr.chosen td{font-weight:650}
tr.off td.state{color:var(--alarm);font-weight:600}
code{font-size:.82rem;overflow-wrap:anywhere}
.chips{display:grid;grid-template-columns:repeat(auto-fill,minmax(6.2rem,1fr));gap:.4rem;margin:.8rem 0}
.chips details{border:1px solid var(--faint);border-radius:3px;background:var(--raised)}
.chips details[open]{grid-column:1/-1;padding-bottom:.8rem}
summary{cursor:pointer;padding:.25rem .6rem}
.fold{border-top:1px solid var(--faint);margin:1rem 0 0}
.fold>summary{padding:.6rem 0}
.fold>summary h2{display:inline;border:0;margin:0;padding:0;font-size:1.2rem}
.fold+.fold{margin-top:0}
.chips details>div{padding:0 1rem}
@media (max-width:40rem){
figure .wide{display:none}figure .narrow{display:block;width:100%}
th,td{padding-right:.6rem}
}
@media print{
@page{size:A4;margin:12mm 12mm}
html{font-size:10pt;line-height:1.4}
body{max-width:none;padding:0}
nav,.skip,.hint,.chips,.choose,.fold:not([open]){display:none}
h2{margin-top:1.2rem}
figure{margin:.8rem 0}
figure .wide{display:block;width:100%}figure .narrow{display:none}
figure .wide svg{max-height:88mm;margin:0 auto}
figure,.tile,tr{break-inside:avoid}
h2,h3,figcaption{break-after:avoid}
.scroll{overflow:visible}
table{font-size:8.5pt}
.fill-ground{fill:none}
.sheet{break-before:page;break-after:page;border:0;padding:0;margin:0;font-size:var(--sheet);line-height:1.26}
.sheet h2{font-size:14pt;margin:0}
.sheet .flow{columns:2;column-gap:8mm}
.sheet .flow h3{margin:1.6mm 0 .6mm;font-size:1.12em}
.sheet p,.sheet li{margin:.35mm 0}
.sheet ul,.sheet ol{margin:.4mm 0}
.sheet .cautions{margin:1mm 0 0;padding-left:2mm;border-left-width:3px}
.sheet li{break-inside:avoid}
.sheet table{font-size:1em}
.sheet .amounts{width:100%}
.sheet td,.sheet th{padding:.4mm 2mm .4mm 0}
.sheet input{appearance:none;width:2.8mm;height:2.8mm;border:.3mm solid var(--ink);margin-right:1.6mm;vertical-align:-.4mm}
.sheet .boxes label{padding-left:4.4mm;text-indent:-4.4mm}
.sheet .sign{gap:1.4mm 2mm;break-inside:avoid}
}
`;

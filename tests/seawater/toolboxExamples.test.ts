import { describe, expect, it } from "vitest";
import {
  cFromSp,
  ctFreezing,
  ctFromPt,
  ctFromT,
  pt0FromT,
  rho,
  sigma0,
  spFromC,
  spSalinometer,
  srFromSp,
  tFreezing,
} from "../../src/seawater/index.js";

// The example inputs of the TEOS-10 toolbox documentation.
const t = [28.7856, 28.4329, 22.8103, 10.26, 6.8863, 4.4036];
const p = [10, 50, 125, 250, 600, 1000];
const c = [34.5487, 34.7275, 34.8605, 34.681, 34.568, 34.56];
const sa = [34.7118, 34.8915, 35.0256, 34.8472, 34.7366, 34.7324];
const ct = [28.8099, 28.4392, 22.7862, 10.2262, 6.8272, 4.3236];

describe("the examples of the TEOS-10 documentation", () => {
  it("SP_from_C gives the six published salinities", () => {
    const published = [
      20.009869599086951, 20.26551186487427, 22.981513062527689, 31.204503263727982,
      34.032315787432829, 36.40030849438817,
    ];
    c.forEach((value, i) => {
      expect(Math.abs(spFromC(value, t[i]!, p[i]!) - published[i]!)).toBeLessThan(1e-12);
    });
  });

  it("CT_from_t gives the first published value", () => {
    expect(Math.abs(ctFromT(34.7118, 28.7856, 10) - 28.80991982670028)).toBeLessThan(1e-10);
  });
});

// Computed with the TEOS-10 reference code (GSW 3.6.16) at the same inputs.
describe("the reference code at the inputs of those examples", () => {
  const rows: [string, (i: number) => number, number[], tolerance: number][] = [
    [
      "CT_from_t",
      (i) => ctFromT(sa[i]!, t[i]!, p[i]!),
      [
        28.80991982670028, 28.43922781609114, 22.786176893078498, 10.226189266620782,
        6.827213633479988, 4.3235757486104545,
      ],
      1e-11,
    ],
    [
      "pt0_from_t",
      (i) => pt0FromT(sa[i]!, t[i]!, p[i]!),
      [
        28.783196819670632, 28.420983342398962, 22.78493039911711, 10.23052366109573,
        6.8292302244096605, 4.324510571845719,
      ],
      1e-11,
    ],
    [
      "sigma0",
      (i) => sigma0(sa[i]!, ct[i]!),
      [
        21.797900819337656, 22.052215404397316, 23.892985307893923, 26.66760866597201,
        27.10738045511971, 27.409748977090885,
      ],
      1e-11,
    ],
    [
      "rho",
      (i) => rho(sa[i]!, ct[i]!, p[i]!),
      [
        1021.8399357381084, 1022.2624579668668, 1024.4271954133164, 1027.7901527591273,
        1029.837779000189, 1032.002453224572,
      ],
      1e-11,
    ],
    [
      "t_freezing of air-free water",
      (i) => tFreezing(sa[i]!, p[i]!, 0),
      [
        -1.9008242656810919, -1.9410047299129634, -2.0049590865487916, -2.0890805676140833,
        -2.3493870384963365, -2.6585926112125526,
      ],
      1e-11,
    ],
    [
      "t_freezing of air-saturated water",
      (i) => tFreezing(sa[i]!, p[i]!, 1),
      [
        -1.902730710149887, -1.9429086192871496, -2.006861069199739, -2.0909850868753543,
        -2.3512931303421345, -2.6604987627767978,
      ],
      1e-11,
    ],
    [
      "CT_freezing of air-free water",
      (i) => ctFreezing(sa[i]!, p[i]!, 0),
      [
        -1.897778698355318, -1.9388905681570827, -2.004342969243562, -2.0904591966864006,
        -2.357406407987241, -2.675274932475207,
      ],
      1e-11,
    ],
    [
      "CT_freezing of air-saturated water",
      (i) => ctFreezing(sa[i]!, p[i]!, 1),
      [
        -1.8996837764241798, -1.9407918678690714, -2.006240664432484, -2.0923577613188726,
        -2.359300831770539, -2.677162675412826,
      ],
      1e-11,
    ],
  ];
  for (const [name, value, expected, tolerance] of rows)
    it(`${name} agrees within ${tolerance}`, () => {
      expected.forEach((reference, i) => {
        expect(Math.abs(value(i) - reference)).toBeLessThan(tolerance);
      });
    });
});

// Check profile stored with the TEOS-10 toolbox, cast 1 (142 E, 11 N), six of its levels, each with its stored tolerance.
describe("the check profile of the TEOS-10 toolbox", () => {
  const pressure = [0, 50, 176, 909, 2534, 6131];
  const sp = [
    34.306287392599714, 34.37519800139167, 34.821654999994536, 34.532505000117716,
    34.65227899985398, 34.714921169561336,
  ];
  const temperature = [27.962, 27.774, 18.178, 4.9176, 1.7713, 1.5998];
  const salinity = [
    34.468236430490606, 34.537494144119954, 34.98687812873595, 34.70523685435276, 34.83227655059663,
    34.893910542287834,
  ];
  const conservative = [
    27.996436412058213, 27.79331941550892, 18.143912352561333, 4.8418804148384185,
    1.5920152151251625, 1.0146108664670916,
  ];
  const rows: [string, (i: number) => number, number[], tolerance: number][] = [
    [
      "C_from_SP",
      (i) => cFromSp(sp[i]!, temperature[i]!, pressure[i]!),
      [
        55.19754712635529, 55.12088561320086, 45.94453249099768, 33.382144048823484,
        31.375021944349598, 32.48916082075326,
      ],
      6.2e-10,
    ],
    [
      "SP_salinometer",
      (i) =>
        spSalinometer(
          [
            0.9823796381063463, 0.9841312154793117, 0.9954528688161898, 0.9879557454516763,
            0.9910156295210335, 0.9926337365727619,
          ][i]!,
          temperature[i]!,
        ),
      sp,
      1.3e-10,
    ],
    [
      "SR_from_SP",
      (i) => srFromSp(sp[i]!),
      [
        34.468056240350435, 34.53729179219596, 34.98585402688595, 34.69534056083829,
        34.81567934631502, 34.87861690069919,
      ],
      1.3e-10,
    ],
    [
      "CT_from_t",
      (i) => ctFromT(salinity[i]!, temperature[i]!, pressure[i]!),
      conservative,
      6.3e-10,
    ],
    [
      "pt0_from_t",
      (i) => pt0FromT(salinity[i]!, temperature[i]!, pressure[i]!),
      [
        27.962, 27.76230252755156, 18.147615154162335, 4.842769286438453, 1.5919261126559991,
        1.0143937831023524,
      ],
      6.1e-10,
    ],
    [
      "CT_from_pt",
      (i) =>
        ctFromPt(
          salinity[i]!,
          [
            27.962, 27.76230252755156, 18.147615154162335, 4.842769286438453, 1.5919261126559991,
            1.0143937831023524,
          ][i]!,
        ),
      conservative,
      6.3e-10,
    ],
    [
      "rho",
      (i) => rho(salinity[i]!, conservative[i]!, pressure[i]!),
      [
        1021.8863044505447, 1022.2138568653844, 1025.8680792430055, 1031.4980914996909,
        1039.3589477459352, 1054.9119401072687,
      ],
      2.9e-10,
    ],
    [
      "sigma0",
      (i) => sigma0(salinity[i]!, conservative[i]!),
      [
        21.886304450544685, 22.003119491623465, 25.1037473219601, 27.330990307290676,
        27.738088154562774, 27.828130454958,
      ],
      2.9e-10,
    ],
    [
      "CT_freezing at half air saturation",
      (i) => ctFreezing(salinity[i]!, pressure[i]!, 0.5),
      [
        -1.8769131434020272, -1.9192288424514754, -2.0423456684927026, -2.601727991313934,
        -3.9568153642785067, -7.273116761568962,
      ],
      2.3e-11,
    ],
    [
      "t_freezing at half air saturation",
      (i) => tFreezing(salinity[i]!, pressure[i]!, 0.5),
      [
        -1.880461384909489, -1.9218387373344321, -2.0421111382728063, -2.5871525697921816,
        -3.8986129307106077, -7.07904323614801,
      ],
      2.2e-11,
    ],
  ];
  for (const [name, value, expected, tolerance] of rows)
    it(`${name} agrees within its stored tolerance ${tolerance}`, () => {
      expected.forEach((reference, i) => {
        expect(Math.abs(value(i) - reference)).toBeLessThan(tolerance);
      });
    });
});

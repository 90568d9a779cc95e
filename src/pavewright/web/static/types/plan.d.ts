// made by tools/make_types.py from the types of the program; do not edit
// The whole plan as JSON.

import type * as job from "./job.js";

export interface AdjustedTapes {
  residuals: TapeResidual[];
  spare: number;
  ratio: number | null;
  ratio_low: number | null;
  ratio_high: number | null;
  shapes: ShapeResidual[];
  suspects: SuspectTape[];
  next_tape: NextTape | null;
}

export interface Advice {
  act: "read" | "tap" | "leave" | "look" | "lift";
  why: ("rocks" | "twist" | "low" | "high" | "thin")[];
  plane: PlanePart | null;
  tap: Tap | null;
  low: number[];
  bed_change_mm: number | null;
}

export interface AreaAsLaid {
  area: string;
  readings: ReadingCheck[];
  bays: BayAsLaid[];
  profiles: ProfileAsLaid[];
  fitted: Plane | null;
  fall: number | null;
  planned_fall: number;
  steepest: number | null;
  bearing_deg: number | null;
  greatest_residual_mm: number | null;
  walls: WallCheck[];
  level_limit: Figure;
  unknown_walls: string[];
  reasons: Reason[];
  verdict: "pass" | "fail" | "unsure";
  workings: Working[];
}

export interface AreaBedding {
  area: string;
  pieces: number;
  units: UnitChecked[];
  unmatched: number;
  lips: LipBetween[];
  step: Figure;
  laid_m2: number;
  bed: BedUse | null;
  bed_so_far: BedSoFar | null;
}

export interface AreaBuildUp {
  area: string;
  layers: Layer[];
  total_mm: number;
  formation: FoldedSurface;
  base_shape: Shape;
  dig_shape: Shape;
  strip_shape: Shape;
  cbr_percent: number | null;
  workings: Working[];
  edges: EdgeSection[];
  edge_trench_m3: number;
}

export interface AreaDig {
  area: string;
  volumes: PrismVolumes;
  dig_m2: number;
  beyond_m2: number;
  mean_depth_mm: number;
  workings: Working[];
  soils: SoilDig[];
  zones: ZoneDig[];
  sides_m3: number;
  margin_m3: number;
  fill_depth_mm: number;
  fill_layers: FillLayers | null;
  topsoil: TopsoilAllowance | null;
}

export interface AreaJudged {
  area: string;
  verdict: "pass" | "fail" | "unsure";
  why: string[];
}

export interface AreaToLay {
  area: string;
  pieces: number;
  one_by_one: boolean;
  joint_mm: number;
  all_m2: number;
  limits: Limits;
  units: UnitToLay[];
  seams: number[][];
  stages: [number, number][];
  bed: BedUse | null;
}

export interface ArithmeticCheck {
  name: string;
  left_mm: number;
  right_mm: number;
}

export interface AsLaidReport {
  areas: AreaAsLaid[];
  regime: Regime;
  gaps: GapAsLaid[];
  lips: LipAsLaid[];
  joints: JointAsLaid[];
  visits: VisitMoved[];
  hoses: HoseAsLaid[];
  gratings: DrainFound[];
  reasons: Reason[];
  is_water_judged: boolean;
  verdict: "pass" | "fail" | "unsure";
  limits: string[];
  findings: Finding[];
}

export interface AssumedFact {
  what: 
    | "dpc"
    | "threshold"
    | "air_brick"
    | "cover"
    | "edge"
    | "gully"
    | "channel"
    | "outfall_level"
    | "outfall_takes_water"
    | "boundary"
    | "point"
    | "place"
    | "soil"
    | "topsoil";
  place: string;
  value: number | string;
  unit: string;
  by: string;
  why: string;
  path: string;
}

export interface AssumedShare {
  fact: AssumedFact;
  low_minor: number | null;
  high_minor: number | null;
}

export interface AssumedTool {
  tool: 
    | "tape"
    | "tape_length"
    | "tape_read"
    | "square"
    | "level"
    | "string"
    | "pull";
  figure: Figure | null;
}

export interface BaseLine {
  area: string;
  start: string;
  end: string;
  start_at: [number, number];
  end_at: [number, number];
  length_mm: number;
  side: string;
  off_mm: number;
  words: string;
}

export interface BayAsLaid {
  area: string;
  number: number;
  outline: [number, number][];
  planned: Plane;
  readings: string[];
  fit: RobustPlane | null;
  out: string[];
  fall: number | null;
  fall_sd: number | null;
  planned_fall: number;
  turned_deg: number | null;
  farthest_at: [number, number] | null;
  farthest_mm: number | null;
  farthest_sd_mm: number | null;
  twist: BentPlane | null;
  is_plane_off: boolean;
  states: 
    | ("as_designed"
    | "flat_by_design"
    | "off_design"
    | "moved_since"
    | "unknown")[];
  read_at: [number, number][];
}

export interface BayCure {
  key: string | null;
  description: string;
  begins: string;
  ends: string;
  time: CureTime;
}

export interface BayMoved {
  area: string;
  number: number;
  places: number;
  mean_mm: number;
  sd_mm: number;
  verdict: "moved" | "not_seen" | "unknown";
}

export interface BedSoFar {
  runs: "thick" | "thin" | "as_planned" | "too_early" | "unknown";
  mean_mm: number | null;
  low_mm: number | null;
  high_mm: number | null;
  more_low: number | null;
  more_high: number | null;
  shows_from_m2: number | null;
}

export interface BedUse {
  area: string;
  counted: "bag" | "barrow";
  thickness_mm: number;
  per_m2: number | null;
  each: number;
  volume_m3: number;
}

export interface BeddingReport {
  areas: AreaBedding[];
  findings: Finding[];
}

export interface BentPlane {
  twist_mm: number;
  sd_mm: number;
}

export interface BookEntry {
  place: 
    | "catalogue"
    | "materials"
    | "units"
    | "mixed_packs"
    | "plant"
    | "disposal"
    | "labour";
  name: string;
  supplier: string;
  priced_on: string | null;
}

export interface BookUsed {
  firm: string;
  currency: string;
  invented: boolean;
  entries: BookEntry[];
  fields: string[];
  own_items: string[];
}

export interface BuildUps {
  areas: AreaBuildUp[];
  findings: Finding[];
  retained: RetainedEdge[];
  open_edges: OpenEdge[];
}

export interface Catchment {
  area: string;
  to: string;
  kind: 
    | "gully"
    | "channel"
    | "wall"
    | "kerb"
    | "free_edge"
    | "boundary"
    | "tie_in"
    | "next_area";
  shapes: Shape[];
  area_m2: number;
  flow_l_s: number;
  outfall: string | null;
  at: [number, number];
  working: Working;
  ways: [number, number][][];
  beyond: 
    | "own_paving"
    | "own_ground"
    | "neighbour"
    | "highway"
    | "not_known"
    | null;
  disputed_by: string | null;
  from_others_m2: number;
  whole_l_s: number;
}

export interface CauseKey {
  cause: 
    | "formation"
    | "layer"
    | "bulking"
    | "spoil_mass"
    | "crew"
    | "output"
    | "yield"
    | "breakage"
    | "topsoil"
    | "provisional"
    | "assumed";
  area: number | null;
  layer: number;
  task: 
    | "set_out"
    | "dig"
    | "sides"
    | "load"
    | "cart"
    | "topsoil_provisional"
    | "break_out"
    | "dig_free"
    | "found_pipe"
    | "carry_in"
    | "wall_trench"
    | "edge_trench"
    | "wall_footing"
    | "wall"
    | "guard"
    | "fill"
    | "drains"
    | "channel_pipes"
    | "channel_fill"
    | "gullies"
    | "gully_pipes"
    | "gully_fill"
    | "gratings"
    | "frames"
    | "pit_dig"
    | "pit_load"
    | "pit_fill"
    | "silt_traps"
    | "sub_base"
    | "sub_base_layer"
    | "base"
    | "edges_kerb"
    | "edges_edging"
    | "edges_haunch"
    | "cut"
    | "lay_border"
    | "lay_zone"
    | "lay"
    | "point"
    | "steps"
    | "clear"
    | null;
  item: string | null;
  fact: number;
}

export interface ChainLink {
  words: string;
  level_mm: number | null;
}

export interface ChannelCut {
  name: string;
  shape: Shape;
}

export interface ComesBack {
  peg: string;
  area: string;
  at: [number, number];
  first: FixedPlace;
  second: FixedPlace;
  tapes_mm: [number, number];
  cut_deg: number;
  is_steep: boolean;
  radial_mm: number;
}

export interface Consequence {
  kind: "stone" | "concrete" | "bed" | "dig";
  layer: 
    | "unit"
    | "bed"
    | "base"
    | "sub_base"
    | "capping"
    | "geotextile"
    | null;
  volume_m3: Spread;
  mean_mm: number;
  goods: GoodsNeeded[];
  loose_m3: number | null;
  hours: number | null;
  minor: number | null;
  days: number | null;
  working: Working;
}

export interface Corner {
  name: string;
  x_mm: number;
  y_mm: number;
  rise_mm: number;
}

export interface Cost {
  labour: LabourTask[];
  lines: CostLine[];
  prime_minor: number;
  overhead_minor: number;
  margin_minor: number;
  net_minor: number;
  tax_minor: number;
  total_minor: number;
  low_minor: number;
  high_minor: number;
  reasons: [string, number][];
  gaps: Gap[];
  scope: ScopeLine[];
  workings: Working[];
  findings: Finding[];
  provisional: ProvisionalSum | null;
  assumed: AssumedShare[];
  tax: TaxShare[];
  prime_costs: PrimeCostSum[];
  markup_percent: number | null;
  margin_percent: number | null;
  orders: Order[];
  range_kind: "whole" | "lower" | "not_known";
  hires: Hire[];
}

export interface CostLine {
  key: string;
  group: 
    | "labour"
    | "plant"
    | "disposal"
    | "provisional"
    | "material";
  description: string;
  quantity: number;
  unit: string;
  rate_minor: number;
  amount_minor: number;
  low_minor: number;
  high_minor: number;
  working: Working;
  stale: StaleBy | null;
  sold_as: SoldAs | null;
  quantity_words: string;
}

export interface Crossing {
  peg: string;
  number: number;
  area: string;
  at: [number, number];
  string: string;
  level_mm: number;
  sag_mm: number;
  hung_by: "read" | "one_end" | "planned";
  heights: LayerHeight[];
}

export interface CureTime {
  rule: Figure;
  reference_c: number;
  hours: number;
  from_c: number | null;
  known: boolean;
  regimes: RegimeTime[];
  ends: boolean;
}

export interface CurveSetOut {
  area: string;
  side: string;
  radius_mm: number;
  rise_mm: number;
  length_mm: number;
  centre_at: [number, number];
  centre_along_mm: number;
  centre_off_mm: number;
  is_swung: boolean;
  hindrance: 
    | "house"
    | "wall"
    | "boundary"
    | "obstacle"
    | "tree"
    | "hole"
    | null;
  tape_short: boolean;
  offsets: StringOffsets[];
}

export interface DateChance {
  on: string;
  chance: number;
}

export interface Datum {
  state: "held" | "unsure" | "none";
  marks: string[];
  apart: string[];
  shift_mm: number;
  shift_sd_mm: number;
}

export interface DayOnSite {
  tasks: TaskOnSite[];
  deliveries: DeliveryOnSite[];
  done_sd: Figure;
  judge_from: Figure;
}

export interface Delivery {
  group: 
    | "dig"
    | "base"
    | "bed"
    | "units"
    | "joints"
    | "edges"
    | "drainage"
    | "sundries";
  number: number;
  supplier: string;
  supplier_kind: 
    | "merchant"
    | "quarry"
    | "maker"
    | "hire"
    | "waste"
    | "carrier"
    | "labour"
    | "other"
    | null;
  on: string;
  begun: boolean;
  lead_days: number | null;
  lead_known: boolean;
  order_by: string | null;
  kg: number;
  kg_known: boolean;
  room_m2: number;
  items: DeliveryLine[];
}

export interface DeliveryLine {
  key: string;
  description: string;
  ordered: number;
  sold_as: SoldAs;
  kg: number | null;
  lead_days: number | null;
  order_unit: string;
  ordered_words: string;
}

export interface DeliveryOnSite {
  on: string;
  supplier: string;
  items: ItemOnSite[];
}

export interface Dimension {
  words: string;
  drawing: "survey" | "levels" | "laying" | "dig" | "water" | "steps";
  scope: string | null;
  side: string;
  times: number;
  length_m: number | null;
  width_m: number | null;
  depth_m: number | null;
  area_m2: number | null;
  volume_m3: number | null;
  each: number;
  each_unit: string;
  amount: number;
}

export interface DoorStep {
  wall: string;
  opening: string;
  path: string;
  left_mm: number;
  middle_mm: number;
  right_mm: number;
  left_at: [number, number];
  right_at: [number, number];
  text: string;
}

export interface DrainCheck {
  drain: string;
  flow_l_s: number;
  takes_l_s: number;
  working: Working;
}

export interface DrainFound {
  mark: string;
  drain: string;
  place: string;
  above_mm: number;
  min_mm: number;
  max_mm: number;
  verdict: "pass" | "fail" | "unsure";
}

export interface DrainParts {
  kind: "gully" | "channel";
  name: string;
  state: "existing" | "new" | "not_known";
  pots: number;
  gratings: number;
  grating_mm: number;
  channel_m: number;
  end_caps: number;
  run: PipeRun;
}

export interface DrainRead {
  fall: number | null;
  fall_sd: number | null;
  min_fall: number | null;
  back_falls: number;
  fall_verdict: "pass" | "fail" | "unsure" | null;
  standing: 
    | "tight"
    | "leaks"
    | "too_short"
    | "not_known"
    | "runs"
    | "runs_not"
    | "untested";
  test_limit: Figure | null;
}

export interface DrainRun {
  pipe: PipeRun;
  state: "existing" | "new" | "not_known";
  start: RunEnd;
  end: RunEnd | null;
  fall_mm: number | null;
  fall: number | null;
  verdict: "enough" | "flat" | "none" | "not_known";
  crossings: RunCrossing[];
  line_known: boolean;
  bore: Figure;
  min_one_in: Figure | null;
  min_cover: Figure;
  bed: Figure;
  trench: Figure;
  silt_traps: number;
}

export interface Draining {
  cell_mm: number;
  standing_l: number;
  standing_m2: number;
  deepest_mm: number;
  shut_in_m2: number;
  to_drains_m2: number;
  past_m2: number;
  to_walls_m: number;
  to_others_m2: number;
}

export interface Driver {
  key: CauseKey;
  words: string;
  first: number;
  total: number;
  error: number;
  low_minor: number;
  high_minor: number;
}

export interface Earthworks {
  areas: AreaDig[];
  cut_m3: number;
  fill_m3: number;
  away_m3: number;
  loose_m3: Spread;
  tonnes: Spread;
  loads: Spread | null;
  load_kind: string;
  barrows: Spread;
  workings: Working[];
  findings: Finding[];
  soils: SoilDig[];
  reused_m3: number;
  loads_working: Working | null;
  provisional: TopsoilAllowance[];
  provisional_loads: Spread | null;
  compaction: LayerCompaction[];
  services_near: ServiceNear[];
  roots_near: RootsNear[];
  found: FoundDig[];
}

export interface EdgeOnSite {
  edge_mm: number;
  gap: Figure | null;
}

export interface EdgeSection {
  restraint: 
    | "wall"
    | "haunch"
    | "edging"
    | "kerb"
    | "retaining"
    | "engineered"
    | "existing"
    | "none";
  unit_mm: [number, number];
  top_mm: number;
  bed_mm: [number, number];
  back: Haunch | null;
  front: Haunch | null;
  trench_mm: number;
  decided_by: Figure[];
}

export interface ErrorEllipse {
  major_mm: number;
  minor_mm: number;
  bearing_deg: number;
}

export interface ExpectedError {
  along_mm: number;
  off_mm: number;
  radial_mm: number;
  within_mm: number;
}

export interface Facet {
  outline: [number, number][];
  plane: Plane;
}

export interface FactChange {
  kind: "access" | "carry" | "machine_dig" | "people" | "pace";
  change: FieldChange;
  was: number | null;
  extra_minor: number;
  extra_days: number | null;
  words: string;
}

export interface Fault {
  path: string;
  message: string;
  wanted: "tape" | "side" | "height" | "fall" | "layout" | null;
  place: string;
}

export interface FieldChange {
  path: string;
  value: string | number | boolean | null;
}

export interface Figure {
  key: string;
  value: number;
  unit: string;
  source: string;
  place: string;
  status: "S" | "D" | "M" | "C" | "own";
  label: string;
  low: number | null;
  high: number | null;
}

export interface FillLayers {
  depth_mm: number;
  layer_mm: number;
  layers: number;
  passes: number | null;
  plate: "plate_heavy" | "plate_light" | "below_table" | "unknown";
  decided_by: Figure;
}

export interface FindRate {
  area: string;
  dig: TakeUpRate | null;
  fill: TakeUpRate | null;
}

export interface Finding {
  code: string;
  severity: "stop" | "check" | "note";
  place: string;
  message: string;
  value: number | null;
  limit: number | null;
  unit: string;
  figure: Figure | null;
  chain: ChainLink[];
  options: Option[];
  at_mm: [number, number] | null;
  tries_options: boolean;
}

export interface FinishChance {
  ends: DateChance[];
  planned: DateChance;
  error: number;
  spread: DateChance[];
  unknown_months: number[];
  mean_lost_days: number;
  draws: number;
}

export interface FinishedArea {
  area: string;
  surface: FoldedSurface;
  folding: string;
  main_direction: [number, number];
  main_fall: number;
  cross_fall: number;
  corners: SpotLevel[];
  spots: SpotLevel[];
  clearances: WallClearance[];
  doors: DoorStep[];
  fixed_by: string;
  workings: Working[];
}

export interface FixedPlace {
  kind: 
    | "wall_start"
    | "wall_end"
    | "jamb_left"
    | "jamb_right"
    | "obstacle";
  name: string;
  number: number;
  at: [number, number];
}

export interface FlightParts {
  steps: string;
  width_m: number;
  units_m: number;
  foundation_wide_mm: number;
  foundation_thick_mm: number;
  foundation_m3: number;
  core_m3: number;
  room_m3: number;
  mortar_m3: number;
}

export interface FoldCuts {
  pieces: number[];
  saw_m: number;
  narrowest_mm: number;
  uncut: number[];
  uncut_lip_mm: number;
  too_narrow: number[];
  neck_mm: number | null;
  lip_mm: number;
}

export interface FoldOption {
  kind: 
    | "one_plane"
    | "to_house"
    | "valley"
    | "crossed_valley"
    | "to_gully"
    | "ridge"
    | "mitre"
    | "stepped"
    | "cheapest";
  words: string;
  surface: FoldedSurface | null;
  cost_minor: number | null;
  cut_m3: number | null;
  fill_m3: number | null;
  drains: Draining | null;
  accepted: boolean;
  folds_m: number;
  verdict: string;
}

export interface FoldStudy {
  area: string;
  options: FoldOption[];
  chosen: number;
}

export interface FoldedSurface {
  facets: Facet[];
}

export interface FoundDig {
  number: number;
  kind: "deeper" | "soft_spot" | "concrete" | "drain";
  area: string;
  plan_m2: number;
  dig_m3: number;
  fill_m3: number;
  broken_m3: number;
  length_m: number;
  new_pipe: boolean;
  open_stone: boolean;
  working: Working;
}

export interface Gap {
  scope: string[];
  reason: "no_price" | "not_measured" | "not_known";
  words: string;
  item: string | null;
  ours: boolean;
}

export interface GapAsLaid {
  name: string;
  area: string;
  at: [number, number] | null;
  edge_mm: number;
  gap_mm: number;
  sd_mm: number;
  limit: Limit;
  verdict: "pass" | "fail" | "unsure" | null;
}

export interface GaugeMark {
  piece: number;
  start_mm: number;
  end_mm: number;
}

export interface GoodsNeeded {
  material: 
    | "cement"
    | "sharp_sand"
    | "soft_sand"
    | "ballast"
    | "sub_base"
    | "capping"
    | "open_stone"
    | "grit"
    | "blinding_sand"
    | "joint_sand"
    | "geotextile"
    | "edging"
    | "kerb"
    | "plasticiser"
    | "bond_coat"
    | "topsoil"
    | "channel"
    | "channel_end"
    | "channel_outlet"
    | "gully"
    | "grating"
    | "pipe"
    | "pipe_bend"
    | "pipe_gravel"
    | "perforated_pipe"
    | "silt_trap"
    | "soakaway_stone"
    | "soakaway_crates"
    | "step_unit"
    | "membrane"
    | "movement_joint"
    | "walling"
    | "drain_stone"
    | "guard";
  amount: number;
  unit: 
    | "kg"
    | "m"
    | "m\u00b2"
    | "m\u00b3"
    | "litre"
    | "each"
    | "units"
    | "packs"
    | "loads"
    | "m of riser";
  packs: number | null;
}

export interface GoodsRate {
  material: 
    | "cement"
    | "sharp_sand"
    | "soft_sand"
    | "ballast"
    | "sub_base"
    | "capping"
    | "open_stone"
    | "grit"
    | "blinding_sand"
    | "joint_sand"
    | "geotextile"
    | "edging"
    | "kerb"
    | "plasticiser"
    | "bond_coat"
    | "topsoil"
    | "channel"
    | "channel_end"
    | "channel_outlet"
    | "gully"
    | "grating"
    | "pipe"
    | "pipe_bend"
    | "pipe_gravel"
    | "perforated_pipe"
    | "silt_trap"
    | "soakaway_stone"
    | "soakaway_crates"
    | "step_unit"
    | "membrane"
    | "movement_joint"
    | "walling"
    | "drain_stone"
    | "guard";
  per_m3: number;
  unit: 
    | "kg"
    | "m"
    | "m\u00b2"
    | "m\u00b3"
    | "litre"
    | "each"
    | "units"
    | "packs"
    | "loads"
    | "m of riser";
  in_pack: number | null;
  minor_per_m3: number | null;
}

export interface GridPlace {
  label: string;
  area: string;
  at: [number, number];
  planned_mm: number;
}

export interface Haunch {
  foot_mm: number;
  top_mm: number;
  height_mm: number;
  decided_by: Figure[];
}

export interface HeldBy {
  kind: "start" | "task" | "gang" | "plant" | "pin" | "done";
  key: string | null;
  plant: 
    | "excavator"
    | "dumper"
    | "plate"
    | "mixer"
    | "saw"
    | "splitter"
    | "breaker"
    | "laser"
    | "other"
    | null;
}

export interface Hire {
  key: string;
  days: number;
  wanted_days: number;
  entered: boolean;
  working: Working;
  on: string | null;
  off: string | null;
  paid_until: string | null;
  order_by: string | null;
  held_days: number;
}

export interface Hold {
  key: HoldKey;
  area: string;
  drain: string;
  area_m2: number;
  places: HoldPlace[];
  limit: HoldLimit | null;
  line_limit: Figure | null;
  checks: string[];
  read: PlaceRead[];
  sd_mm: number | null;
  verdict: "pass" | "fail" | "unsure" | null;
  low: Consequence | null;
  high: Consequence | null;
  low_rate: TakeUpRate | null;
  high_rate: TakeUpRate | null;
  drain_read: DrainRead | null;
}

export interface HoldKey {
  kind: "formation" | "layer" | "drain" | "first_row" | "bed";
  number: number;
  layer: "capping" | "sub_base" | "base" | null;
}

export interface HoldLimit {
  above: Figure;
  below: Figure;
}

export interface HoldOnSite {
  key: string;
  kind: "formation" | "layer" | "drain" | "first_row" | "bed";
  area: string;
  layer: "capping" | "sub_base" | "base" | null;
  drain: string;
  area_m2: number;
  above_mm: number | null;
  below_mm: number | null;
  limit: Figure | null;
  line_mm: number | null;
  places: HoldPlace[];
  low: TakeUpRate | null;
  high: TakeUpRate | null;
  min_fall: number | null;
  inverts: InvertOnSite[];
}

export interface HoldPlace {
  label: string;
  at: [number, number];
  planned_mm: number | null;
  down_mm: number | null;
}

export interface HoldPoints {
  holds: Hold[];
  findings: Finding[];
  day_h: number | null;
  finds: FindRate[];
}

export interface HoldsOnSite {
  holds: HoldOnSite[];
  finds: FindRate[];
  trench_mm: Figure;
  trusted: number;
  reading_sd_mm: number;
  same_place_mm: number;
  day_h: number | null;
  currency: string;
  air_start_mm: Figure;
  air_drop_mm: Figure;
  air_minutes: Figure;
}

export interface HoseAsLaid {
  name: string;
  area: string;
  marks: string[];
  deepest_mm: number;
  after_min: number;
  is_whole: boolean;
  limit: Figure;
  wait: Figure;
  verdict: "pass" | "fail" | "unsure";
}

export interface HouseInTheWay {
  area: string;
  wall: string;
  deep_mm: number;
  refused: number;
  words: string;
}

export interface InletShare {
  kind: 
    | "gully"
    | "channel"
    | "wall"
    | "kerb"
    | "free_edge"
    | "boundary"
    | "tie_in"
    | "next_area";
  name: string;
  areas: string[];
  reaches_m2: number;
  whole_m2: number;
}

export interface InvertOnSite {
  name: string;
  level_mm: number | null;
}

export interface Item {
  key: string;
  group: 
    | "dig"
    | "base"
    | "bed"
    | "units"
    | "joints"
    | "edges"
    | "drainage"
    | "sundries";
  description: string;
  unit: 
    | "kg"
    | "m"
    | "m\u00b2"
    | "m\u00b3"
    | "litre"
    | "each"
    | "units"
    | "packs"
    | "loads"
    | "m of riser";
  net: number;
  allowance_percent: number;
  gross: number;
  ordered: number;
  sold_as: SoldAs;
  ordered_amount: number;
  low: number | null;
  high: number | null;
  workings: Working[];
  kg: number | null;
  holds: PackHolding[];
  scope: string[];
  dimensions: Dimension[];
  order_unit: string;
  ordered_words: string;
}

export interface ItemOnSite {
  words: string;
  product: string;
  unit: string | null;
}

export interface JointAsLaid {
  name: string;
  area: string;
  at: [number, number] | null;
  width_mm: number | null;
  planned_mm: number | null;
  recess_mm: number | null;
  sd_mm: number;
  min_mm: number | null;
  max_mm: number | null;
  recess_max_mm: number | null;
  verdict: "pass" | "fail" | "unsure" | null;
}

export interface LabourTask {
  key: string;
  description: string;
  person_hours: number;
  low_hours: number;
  high_hours: number;
  working: Working;
  plant: 
    | ("excavator"
    | "dumper"
    | "plate"
    | "mixer"
    | "saw"
    | "splitter"
    | "breaker"
    | "laser"
    | "other")[];
  layers: WorkLayer[];
  measured: MeasuredWork | null;
}

export interface LaidArea {
  area: string;
  unit: string;
  pattern: string;
  joint_mm: number;
  bearing_deg: number;
  origin_mm: [number, number];
  pieces: Piece[];
  courses: number;
  border_courses: number;
  sawn: SawnUnit[];
  whole: number;
  cut: number;
  slivers: number;
  units_each_cut_new: number;
  units_with_offcuts: number;
  min_units: number;
  units_bound: number;
  kerf_mm: number;
  joint_length_m: number;
  paved_m2: number;
  joint_m2: number;
  saw_m: number;
  by_unit: UnitCount[];
  workings: Working[];
  limits: string[];
  growth: RunGrowth[];
  gauge: GaugeMark[];
  mixed: LaidMixed | null;
  zones: LaidZone[];
  fold_cuts: FoldCuts;
  left_overs: LeftOver[];
  fills: Shape[];
  under_steps: UnderSteps[];
  movement: MovementJoints;
}

export interface LaidMixed {
  counts: number[];
  units: string[];
  packs: number;
  lying: number;
  bays: number;
  bay_joints: [[number, number], [number, number]][];
  bay_joint_m: number;
  longest_joint_mm: number;
  equal_neighbour_part: number;
  units_per_m2: number[];
}

export interface LaidOnSite {
  regime: string;
  edges: EdgeOnSite[];
  step: Figure;
  wedge_sd: Figure;
  gauge_sd: Figure;
  above_min: Figure;
  above_max: Figure;
  rule_sd: Figure;
  drains: string[];
  is_read: boolean;
  judged: AreaJudged[];
  water: WaterAsked | null;
}

export interface LaidZone {
  name: string;
  unit: string;
  pattern: string;
  joint_mm: number;
  shape: Shape;
  pieces: number;
}

export interface Layer {
  key: 
    | "unit"
    | "bed"
    | "base"
    | "sub_base"
    | "capping"
    | "geotextile";
  name: string;
  thickness_mm: number;
  material: 
    | "unit"
    | "mortar_1_6"
    | "concrete_ballast_1_6"
    | "sub_base"
    | "capping"
    | "open_stone"
    | "grit"
    | "sharp_sand"
    | "geotextile";
  extends_mm: number;
  decided_by: Figure[];
  why: string;
}

export interface LayerCompaction {
  area: string;
  layer: 
    | "unit"
    | "bed"
    | "base"
    | "sub_base"
    | "capping"
    | "geotextile";
  layers: FillLayers;
}

export interface LayerHeight {
  layer: 
    | "finished"
    | "top of bed"
    | "top of base"
    | "top of sub-base"
    | "top of capping"
    | "formation";
  level_mm: number;
  down_from_string_mm: number;
}

export interface LayingOnSite {
  areas: AreaToLay[];
  trusted_sd: number;
  level: Figure;
  step: Figure;
  wedge: Figure;
  string: Figure;
  staff: Figure;
  percent: Figure;
  batch_spread: Figure;
  bed_off: Figure;
}

export interface LayingPlan {
  areas: LaidArea[];
  findings: Finding[];
}

export interface LeftOver {
  unit: string;
  along_mm: number;
  across_mm: number;
  of: string;
}

export interface LevelNotRead {
  what: "dpc" | "threshold" | "air_brick" | "cover" | "edge";
  name: string;
  path: string;
}

export interface LevelReading {
  words: string;
  measured_mm: number;
  residual_mm: number;
  redundancy: number;
  standardised: number | null;
  suspect: boolean;
}

export interface LevelSource {
  kind: 
    | "benchmark"
    | "datum"
    | "given"
    | "book"
    | "height_over"
    | "height_under"
    | "together";
  name: string;
  means: 
    | "string"
    | "water_level"
    | "spirit_level"
    | "laser"
    | "photo"
    | null;
}

export interface Levels {
  areas: FinishedArea[];
  steps: Steps[];
  findings: Finding[];
  studies: FoldStudy[];
}

export interface LevelsTogether {
  readings: LevelReading[];
  sds_mm: [string, number][];
  spare: number;
  ratio: number | null;
}

export interface Limit {
  min_mm: number | null;
  max_mm: number | null;
  why: 
    | "no_rule"
    | "joint_not_read"
    | "fill_not_noted"
    | "warp_not_measured"
    | "unit_not_known"
    | "contacts_not_measured"
    | null;
  figure: Figure | null;
}

export interface Limits {
  share_percent: number;
  gives_percent: number;
  at_once_mm: number;
  tap_from_mm: number;
  proud_mm: number;
  most_mm: number;
  step_mm: number;
  thinnest_mm: number;
}

export interface LipAsLaid {
  name: string;
  area: string;
  at: [number, number] | null;
  lip_mm: number;
  sd_mm: number;
  by_staff: boolean;
  limit: Limit;
  verdict: "pass" | "fail" | "unsure" | null;
}

export interface LipBetween {
  first: number;
  second: number;
  lip_mm: number;
  sd_mm: number;
  verdict: "pass" | "fail" | "unsure";
}

export interface LoadDay {
  kind: "skip_comes" | "skip_changed" | "skip_goes" | "load_leaves";
  on: string;
  number: number;
  of: number;
  order_by: string | null;
}

export interface LowWall {
  thickness_mm: number;
  footing_width_mm: number;
  footing_depth_mm: number;
  below_ground_mm: number;
  face_m2: number;
  footing_m3: number;
  trench_m3: number;
  drain_stone_m3: number;
  decided_by: Figure[];
}

export interface MeasuredWork {
  amount: number;
  output: Figure;
  times: number;
}

export interface Missing {
  code: 
    | "readings"
    | "shape"
    | "tape"
    | "side"
    | "area"
    | "height"
    | "dpc"
    | "threshold"
    | "air_brick"
    | "cover"
    | "edge"
    | "outfall"
    | "ground"
    | "soil"
    | "topsoil"
    | "carry"
    | "fall"
    | "unit"
    | "layout"
    | "labour_price"
    | "prices"
    | "overhead"
    | "margin"
    | "tax"
    | "people"
    | "start";
  place: string;
  path: string;
  stage: string;
  words: string;
  rooms: 
    | ("survey"
    | "levels"
    | "laying"
    | "build_ups"
    | "earthworks"
    | "water"
    | "quantities"
    | "labour"
    | "cost"
    | "programme"
    | "setting_out"
    | "hold_points"
    | "bedding"
    | "as_laid")[];
}

export interface Moved {
  moved_mm: number[];
  sd_mm: number;
  t: number[];
  each_limit: number;
  joint_f: number | null;
  joint_limit: number | null;
}

export interface MovementJoints {
  placed: [[number, number], [number, number]][];
  placed_m: number;
  unplaced_m: number;
  edge_m: number;
  longest_m: number;
}

export interface NextOnSite {
  label: string;
  at: [number, number];
  told: string;
}

export interface NextTape {
  start: string;
  end: string;
  length_mm: number;
  gain: "base" | "fix" | "place" | "check" | "point";
  point: string;
  before: number;
  after: number;
  fixes: string[];
}

export interface NoPin {
  services: string[];
  away_mm: number;
  elsewhere: [number, number] | null;
  words: string;
}

export interface Offered {
  name: string;
  extra_minor: number | null;
  extra_days: number | null;
  refused: "no_plan" | "no_price" | "stops" | null;
  shares: TaxShare[];
}

export interface OpenEdge {
  kind: "bank_above" | "ground_unknown";
  area: string;
  side: string;
  length_mm: number;
  stands_mm: number | null;
  at_mm: [number, number] | null;
}

export interface Option {
  words: string;
  changes: FieldChange[];
  facts: OptionFacts;
}

export interface OptionFacts {
  kind: "design" | "move" | "wish" | "rule" | "refused" | "answer";
  owner: "own" | "neighbour" | "highway" | "not_known";
  aside_minor: number;
  invented: boolean;
  extra_minor: number | null;
  brings_stop: boolean;
  extra_days: number | null;
}

export interface Order {
  supplier: string;
  kind: 
    | "merchant"
    | "quarry"
    | "maker"
    | "hire"
    | "waste"
    | "carrier"
    | "labour"
    | "other"
    | null;
  lines: OrderLine[];
  goods_minor: number;
  unpriced: number;
  carriage_minor: number | null;
  carriage_known: boolean;
  lead_days: number | null;
  lead_known: boolean;
  kg: number;
  working: Working;
  deliveries: OrderDelivery[];
}

export interface OrderChance {
  key: string;
  description: string;
  sold_as: SoldAs;
  planned: number;
  step_minor: number;
  again_minor: number | null;
  steps: OrderStep[];
  cheapest: number | null;
  order_unit: string;
  order_units: string;
  planned_words: string;
}

export interface OrderDelivery {
  on: string | null;
  items: string[];
  carriage_minor: number | null;
  assumed: boolean;
}

export interface OrderLine {
  item: string;
  description: string;
  needed: number;
  unit: string;
  ordered: number;
  sold_as: SoldAs;
  over: number;
  raised: boolean;
  price_minor: number | null;
  amount_minor: number | null;
  order_unit: string;
  ordered_words: string;
}

export interface OrderStep {
  ordered: number;
  short: number;
  mean_minor: number | null;
  chances: number[];
}

export interface PackHolding {
  unit: string;
  per_pack: number;
  needed: number;
  with_spares: number;
  ordered: number;
  left: number;
}

export interface PairedPieces {
  pieces: [number, number];
  x_mm: number;
  y_mm: number;
  along_mm: number;
  across_mm: number;
  start: [number, number];
  end: [number, number];
  outlines: [[number, number][], [number, number][]];
}

export interface Peg {
  number: number;
  name: string;
  area: string;
  role: "base" | "corner" | "fold" | "edge" | "grid" | "profile";
  at: [number, number];
  string_level_mm: number;
  heights: LayerHeight[];
  from_corner: string;
  along_mm: number;
  offset_mm: number;
  stands: "pin" | "mark" | "dip";
  no_pin: NoPin | null;
}

export interface PhotoSurveyLimits {
  min_triangle_share: number;
  min_marks_share: number;
  disagree_percent: number;
  max_beyond_share: number;
  low_camera_deg: number;
  grazing_deg: number;
  max_sd_mm: number;
  lens_found_share: number;
}

export interface PictureOnSite {
  floor: Trust;
  wall: Trust;
  limits: PhotoSurveyLimits;
  known_sd: Figure;
  phone_sd: Figure;
  digital_sd: Figure;
  bubble_sd: Figure;
  trusted_sd: number;
  confidence: Figure;
  judge_share: Figure;
  pairs: Figure;
  error_max: Figure;
  still: Figure;
}

export interface Piece {
  number: number;
  course: number;
  place: number;
  unit: string;
  border: boolean;
  kind: "whole" | "cut";
  shape: Shape;
  along_mm: number;
  across_mm: number;
  turn_deg: number;
  frame_x_mm: number;
  frame_y_mm: number;
  area_m2: number;
  kg: number;
  notched: boolean;
  curved: boolean;
  sliver: boolean;
  saw_m: number;
  zone: string;
  neck_mm: number | null;
}

export interface PipeRun {
  kind: "gully" | "channel";
  name: string;
  outfall: string | null;
  length_m: number | null;
}

export interface PitRecord {
  size: string;
  date: string | null;
  times_min: number[];
  rates_m_per_s: number[];
  working: Working;
}

export interface PitSize {
  outfall: string;
  length_mm: number;
  width_mm: number;
  depth_mm: number;
  cover_mm: number;
  fill: "stone" | "crates";
  void_percent: number;
  proposed: boolean;
  cover_assumed: boolean;
}

export interface PitSpoil {
  loose: Spread;
  loads: Spread | null;
  tonnes: Spread;
  workings: Working[];
  solid: [string, string, number][];
}

export interface PlaceMoved {
  label: string;
  area: string;
  at: [number, number];
  moved_mm: number;
  sd_mm: number;
  t: number;
  verdict: "moved" | "not_seen" | "unknown";
}

export interface PlaceRead {
  label: string;
  at: [number, number];
  planned_mm: number;
  found_mm: number | null;
  off_mm: number | null;
  off_line_mm: number | null;
  verdict: "pass" | "fail" | "unsure" | null;
  place: number | null;
}

export interface PlacedCover {
  cover: job.Cover;
  at: [number, number];
  outline: [number, number][];
  level_mm: number | null;
}

export interface PlacedGully {
  gully: job.Gully;
  at: [number, number];
}

export interface PlacedObstacle {
  obstacle: job.Obstacle;
  at: [number, number];
  outline: [number, number][];
}

export interface PlacedPart {
  piece: number;
  x_mm: number;
  y_mm: number;
  along_mm: number;
  across_mm: number;
  quarter_turns: number;
}

export interface PlacedService {
  service: job.Service;
  points: [number, number][];
}

export interface PlacedTree {
  tree: job.Tree;
  at: [number, number];
}

export interface Plan {
  job: job.Job;
  edition: string;
  survey: Survey;
  levels: Levels;
  laying: LayingPlan;
  build_ups: BuildUps;
  earthworks: Earthworks;
  water: Water;
  quantities: Quantities;
  cost: Cost;
  programme: Programme;
  setting_out: SettingOut;
  hold_points: HoldPoints;
  bedding: BeddingReport | null;
  as_laid: AsLaidReport | null;
  findings: Finding[];
  book: BookUsed | null;
  offered: Offered[];
}

export interface PlanAirBrick {
  name: string;
  at: [number, number];
  underside_level_mm: number | null;
}

export interface PlanArea {
  area: job.Area;
  ring: Ring;
  holes: Ring[];
  shape: Shape;
  gross: Shape;
  path: string;
  channels: ChannelCut[];
}

export interface PlanBoundary {
  name: string;
  start: [number, number];
  end: [number, number];
  neighbour: "neighbour" | "highway" | "own";
  top_level_mm: number | null;
}

export interface PlanChannel {
  name: string;
  start: [number, number];
  end: [number, number];
  width_mm: number;
  invert_level_mm: number | null;
  outfall: string | null;
}

export interface PlanOpening {
  name: string;
  start: [number, number];
  end: [number, number];
  threshold_level_mm: number | null;
  min_step_mm: number;
  max_step_mm: number | null;
}

export interface PlanSoFar {
  job: job.Job;
  edition: string;
  survey: Survey;
  levels: Levels | null;
  laying: LayingPlan | null;
  build_ups: BuildUps | null;
  earthworks: Earthworks | null;
  water: Water | null;
  quantities: Quantities | null;
  labour: LabourTask[] | null;
  programme: Programme | null;
  cost: Cost | null;
  setting_out: SettingOut | null;
  hold_points: HoldPoints | null;
  bedding: BeddingReport | null;
  as_laid: AsLaidReport | null;
  findings: Finding[];
  missing: Missing[];
  faults: Fault[];
  book: BookUsed | null;
  offered: Offered[];
}

export interface PlanTieIn {
  name: string;
  start: [number, number];
  end: [number, number];
  start_level_mm: number | null;
  end_level_mm: number | null;
  tolerance_mm: number;
  beyond: 
    | "own_paving"
    | "own_ground"
    | "neighbour"
    | "highway"
    | "not_known";
}

export interface PlanWall {
  name: string;
  start: [number, number];
  end: [number, number];
  dpc_level_mm: number | null;
  openings: PlanOpening[];
  air_bricks: PlanAirBrick[];
  is_house: boolean;
}

export interface Plane {
  level_mm: number;
  origin_mm: [number, number];
  slope_x: number;
  slope_y: number;
}

export interface PlanePart {
  over_mm: number[];
  sd_mm: number[];
  twist_mm: number | null;
  twist_sd_mm: number | null;
}

export interface PondOnSite {
  number: number;
  at: [number, number];
  told: string;
  state: "stands" | "undecided" | "clears" | "unknown";
}

export interface PriceAt {
  chance: number;
  minor: number;
  error_minor: number;
}

export interface PrimeCostSum {
  name: string;
  supply_minor: number;
  price_minor: number;
  of_minor: number;
  settles_minor: number;
  taxed: Taxed | null;
}

export interface PrismVolumes {
  cut_m3: number;
  fill_m3: number;
  area_m2: number;
  deepest_mm: number;
  shallowest_mm: number;
}

export interface ProfileAsLaid {
  area: string;
  bay: number;
  labels: string[];
  places: [number, number][];
  off_mm: number[];
  edge_mm: number;
  gap_mm: number;
  gap_sd_mm: number;
  contacts: [string, string] | null;
  lowest: string | null;
  widest_mm: number;
  sees_between: boolean;
  limit: Limit;
  verdict: "pass" | "fail" | "unsure" | null;
}

export interface Programme {
  tasks: Task[];
  start: string;
  finish: string;
  site_days: number;
  foot_ready: string;
  car_ready: string | null;
  hires: Hire[];
  deliveries: Delivery[];
  loads: LoadDay[];
  gangs: WorkGang[];
  earliest_finish: string;
  proven: boolean;
  done_up_to: string | null;
  cures: BayCure[];
  chance: FinishChance | null;
  uncounted: ("removal" | "drain_test" | "snagging")[];
  uncounted_words: string;
  findings: Finding[];
}

export interface ProvisionalSum {
  low_minor: number;
  likely_minor: number;
  high_minor: number;
  rates: SettlingRate[];
  rounding_minor: number;
}

export interface Quantities {
  items: Item[];
  findings: Finding[];
  gaps: Gap[];
  pit_spoil: PitSpoil | null;
  flights: FlightParts[];
}

export interface ReadingCheck {
  label: string;
  at: [number, number];
  planned_mm: number;
  found_mm: number;
  deviation_mm: number;
  verdict: "pass" | "fail" | "unsure";
}

export interface Reason {
  area: string;
  ground: 
    | "level"
    | "clearance"
    | "clearance_unknown"
    | "fall"
    | "bay"
    | "bay_unknown"
    | "edge"
    | "gap"
    | "lip"
    | "joint"
    | "hose"
    | "grating"
    | "standing"
    | "standing_unknown"
    | "unread"
    | "place_unread"
    | "clearance_unread";
  names: string[];
  verdict: "pass" | "fail" | "unsure";
}

export interface ReducedLevelBook {
  name: string;
  rows: ReducedRow[];
  sum_backsights_mm: number;
  sum_foresights_mm: number;
  sum_rises_mm: number;
  sum_falls_mm: number;
  checks: ArithmeticCheck[];
  setups: number;
  misclosure_mm: number | null;
  limit_mm: number | null;
  shared_out: boolean;
  working: Working[];
}

export interface ReducedRow {
  point: string;
  backsight_mm: number | null;
  intermediate_mm: number | null;
  foresight_mm: number | null;
  rise_mm: number | null;
  fall_mm: number | null;
  collimation_mm: number;
  level_mm: number;
  correction_mm: number;
  adjusted_mm: number;
  setup: number;
}

export interface Regime {
  key: string;
  label: string;
  gaps: [number, Figure][];
  rules: [string, Figure][];
}

export interface RegimeTime {
  figure: Figure;
  hours: number | null;
}

export interface RetainedEdge {
  area: string;
  side: string;
  corner: string;
  restraint: 
    | "wall"
    | "haunch"
    | "edging"
    | "kerb"
    | "retaining"
    | "engineered"
    | "existing"
    | "none";
  beyond: "ground" | "area" | "behind_wall";
  other: string;
  length_mm: number;
  drop_mm: number;
  mean_drop_mm: number;
  limit_mm: number;
  surcharge: boolean;
  remedy: "kerb" | "low_wall" | "engineer" | "guard";
  wall: LowWall | null;
  guarded_mm: number;
  at_mm: [number, number];
  fall_mm: number;
}

export interface Ring {
  corners: Corner[];
}

export interface Risk {
  draws: number;
  replicates: number;
  seed: number;
  likely_minor: number;
  mean_minor: number;
  sd_minor: number;
  quantiles: PriceAt[];
  break_even: number[];
  dearer: number;
  losing: number | null;
  losing_error: number | null;
  drivers: Driver[];
  orders: OrderChance[];
  facts: FactChange[];
  assumed: AssumedFact[];
  not_drawn: AssumedFact[];
  wholly_fixed: string[];
  unmoved: string[];
  gaps: Gap[];
  figures: Figure[];
}

export interface RobustPlane {
  plane: Plane;
  kept: number[];
  out: number[];
  sd_mm: number;
  spread: [number, number, number][];
}

export interface RootsNear {
  number: number;
  areas: string[];
  away_mm: number;
  reach_mm: number;
}

export interface RunCrossing {
  name: string;
  kind: 
    | "electricity"
    | "gas"
    | "water"
    | "drain"
    | "telecom"
    | "oil"
    | "unknown";
  along_mm: number;
  depth_mm: number | null;
}

export interface RunEnd {
  name: string;
  kind: 
    | "gully"
    | "channel"
    | "border"
    | "lawn"
    | "soakaway"
    | "watercourse"
    | "surface_water_sewer"
    | "combined_sewer"
    | "unknown";
  at: [number, number] | null;
  cover_level_mm: number | null;
  invert_level_mm: number | null;
  assumed: boolean;
}

export interface RunGrowth {
  unit: string;
  way: "along" | "across";
  measured: number;
  work_mm: number;
  mean_mm: number;
  spread_mm: number;
  units_in_run: number;
  growth_mm: number;
  doubt_mm: number;
  joint_mm: number;
  absorbing_joint_mm: number;
}

export interface SawCut {
  number: number;
  lengthwise: boolean;
  at_mm: number;
  start_mm: number;
  end_mm: number;
  trim: boolean;
}

export interface SawnUnit {
  number: number;
  length_mm: number;
  width_mm: number;
  parts: PlacedPart[];
  cuts: SawCut[];
  pairs: PairedPieces[];
  left_over_of: string;
  unit: string;
}

export interface ScopeLine {
  key: string;
  lines: string[];
  gaps: Gap[];
}

export interface ServiceBand {
  name: string;
  kind: 
    | "electricity"
    | "gas"
    | "water"
    | "drain"
    | "telecom"
    | "oil"
    | "unknown";
  depth_mm: number | null;
  band_mm: number;
  points: [number, number][];
  words: string;
}

export interface ServiceNear {
  number: number;
  areas: string[];
  dig_mm: number | null;
  state: "met" | "below_the_dig" | "not_known";
  at_mm: [number, number];
}

export interface SettingOut {
  string_height_mm: number;
  base_lines: BaseLine[];
  pegs: Peg[];
  strings: StringLine[];
  checks: TapeCheck[];
  findings: Finding[];
  work: Work;
  services: ServiceBand[];
  services_words: string;
  houses: HouseInTheWay[];
}

export interface SettlingRate {
  key: string;
  description: string;
  unit: string;
  amount: number;
  rate_minor: number;
  taxed: Taxed | null;
}

export interface Shape {
  outer: [number, number][];
  holes: [number, number][][];
}

export interface ShapeResidual {
  kind: "square" | "on_line";
  points: [string, string, string];
  off_mm: number;
  redundancy: number;
  sd_mm: number;
}

export interface ShapeSoFar {
  sketched: SketchedPlace[];
  sides: SideTaken[];
  unplaced: UnplacedPoint[];
  scale: number;
  next_tape: NextTape | null;
  hanging: string[];
}

export interface SheetStorm {
  minutes: number;
  depth_mm: number;
  reported: string;
  shares: StormShare[];
}

export interface SideTaken {
  name: string;
  by: "stated" | "tapes" | "sketch" | "doubtful";
  line: [string, string] | null;
}

export interface SightHeight {
  name: string;
  point: string;
  backsight_mm: number;
  level_mm: number | null;
  sd_mm: number;
}

export interface SiteFigures {
  title: string;
  job: string;
  invented: boolean;
  as_laid: null;
  grid: GridPlace[];
  reading_sd_mm: number;
  trusted_sd: number;
  level_limit: Figure;
  walls: WallStretch[];
  near_wall_mm: number;
  misclosure_per_setup: Figure;
  parts: SiteParts;
  sources: Record<string, string>;
}

export interface SiteParts {
  day: DayOnSite | null;
  holds: HoldsOnSite | null;
  laid: LaidOnSite | null;
  laying: LayingOnSite | null;
  picture: PictureOnSite | null;
}

export interface SitePlan {
  areas: PlanArea[];
  walls: PlanWall[];
  outfalls: job.Outfall[];
  gullies: PlacedGully[];
  channels: PlanChannel[];
  covers: PlacedCover[];
  obstacles: PlacedObstacle[];
  trees: PlacedTree[];
  boundaries: PlanBoundary[];
  tie_ins: PlanTieIn[];
  services: PlacedService[];
  north_bearing_deg: number | null;
}

export interface SketchedPlace {
  name: string;
  missing: number;
  free_bearing_deg: number | null;
  ellipse: ErrorEllipse;
  is_wanted: boolean;
}

export interface SoakawayCheck {
  outfall: string;
  area_m2: number;
  required_m3: number;
  available_m3: number;
  governing_min: number;
  half_empty_hours: number;
  working: Working;
  verdict: 
    | "enough"
    | "enough for these storms only"
    | "half empty too late"
    | "too small";
  size: PitSize;
  test: PitRecord | null;
}

export interface SoakawayParts {
  outfall: string;
  proposed: boolean;
  size: PitSize;
  dig_m3: number;
  stone_m3: number;
  stone_t: number;
  crates_m3: number;
  geotextile_m2: number;
  perforated_pipe_m: number;
  solid_pipe_m: number | null;
  pipe_bed_m3: number | null;
  silt_traps: number;
  runs: PipeRun[];
  workings: Working[];
}

export interface SoilDig {
  soil: 
    | "topsoil"
    | "heavy_clay"
    | "silty_clay"
    | "sandy_clay"
    | "silt"
    | "sand"
    | "gravel"
    | "made_ground"
    | "chalk"
    | "unknown";
  cut_m3: number;
}

export interface SoldAs {
  holder: 
    | "bag"
    | "pack"
    | "mixed_pack"
    | "load"
    | "skip"
    | "grab"
    | "tipper"
    | "piece"
    | "loose";
  holds: string;
  measure: 
    | "kg"
    | "m"
    | "m\u00b2"
    | "m\u00b3"
    | "litre"
    | "each"
    | "units"
    | "packs"
    | "loads"
    | "m of riser";
}

export interface SpotLevel {
  kind: 
    | "corner"
    | "cover"
    | "gully"
    | "door"
    | "channel"
    | "fold"
    | "step_top"
    | "step_foot";
  name: string;
  label: string;
  at: [number, number];
  level_mm: number;
  path: string;
}

export interface Spread {
  low: number;
  likely: number;
  high: number;
}

export interface StaleBy {
  priced_on: string | null;
  age_days: number | null;
  limit_days: number;
}

export interface StandingOnSite {
  area: string;
  state: "stands" | "undecided" | "clears" | "unknown";
  face: string;
  told: string;
  readings: number;
  ponds: PondOnSite[];
  next_places: NextOnSite[];
  cautions: string[];
}

export interface StepCheck {
  start: string;
  end: string;
  start_at: [number, number];
  end_at: [number, number];
  expected_mm: number;
  limit_mm: number;
}

export interface Steps {
  name: string;
  upper_area: string;
  lower_area: string;
  start: [number, number];
  end: [number, number];
  rise_start_mm: number;
  rise_end_mm: number;
  risers: number;
  riser_mm: number;
  going_mm: number;
  working: Working;
}

export interface StormShare {
  kind: 
    | "gully"
    | "channel"
    | "wall"
    | "kerb"
    | "free_edge"
    | "boundary"
    | "tie_in"
    | "next_area";
  to: string;
  beyond: 
    | "own_paving"
    | "own_ground"
    | "neighbour"
    | "highway"
    | "not_known"
    | null;
  before_l: number | null;
  after_l: number;
}

export interface StrayReading {
  peg: string;
  away_mm: number | null;
}

export interface StringHung {
  name: string;
  area: string;
  start: string;
  end: string;
  start_at: [number, number];
  end_at: [number, number];
  start_level_mm: number;
  end_level_mm: number;
  hung_by: "read" | "one_end" | "planned";
  span_mm: number;
  sag_mm: number;
  prop: boolean;
}

export interface StringLine {
  name: string;
  area: string;
  start: string;
  end: string;
  length_mm: number;
  fall_mm: number;
  carries_fall: boolean;
}

export interface StringOffsets {
  start_at: [number, number];
  end_at: [number, number];
  along_mm: number[];
  off_mm: number[];
}

export interface Survey {
  points: SurveyedPoint[];
  level_books: ReducedLevelBook[];
  tapes: AdjustedTapes | null;
  ground: TriangulatedSurface | null;
  site: SitePlan;
  assumptions: string[];
  findings: Finding[];
  levels_together: LevelsTogether | null;
  dpc_not_read: string[];
  shape: ShapeSoFar | null;
  assumed: AssumedFact[];
  not_read: LevelNotRead[];
}

export interface SurveyedPoint {
  name: string;
  x_mm: number;
  y_mm: number;
  level_mm: number | null;
  found_by: "given" | "tapes" | "offset" | "sketch";
  levelled_by: LevelSource | null;
  sd_mm: number | null;
  ellipse: ErrorEllipse | null;
}

export interface SuspectTape {
  start: string;
  end: string;
  measured_mm: number;
  slip_mm: number | null;
  alike: [string, string][];
}

export interface TakeUpRate {
  kind: "stone" | "concrete" | "bed" | "dig";
  layer: 
    | "unit"
    | "bed"
    | "base"
    | "sub_base"
    | "capping"
    | "geotextile"
    | null;
  goods: GoodsRate[];
  hours_per_m3: number | null;
  minor_per_m3: number | null;
  loose_per_m3: number | null;
}

export interface Tap {
  place: "middle" | "corner" | "side";
  corners: number[];
  at: [number, number];
  held: number[];
  down_mm: number[];
}

export interface TapeCheck {
  name: string;
  area: string;
  kind: "base" | "side" | "diagonal" | "triangle" | "offset";
  start: string;
  end: string;
  start_at: [number, number];
  end_at: [number, number];
  expected_mm: number;
  words: string;
}

export interface TapeResidual {
  start: string;
  end: string;
  measured_mm: number;
  adjusted_mm: number;
  residual_mm: number;
  redundancy: number;
  sd_mm: number;
  standardised: number | null;
}

export interface Task {
  key: string;
  description: string;
  start: string;
  finish: string;
  work_min: number;
  people: number;
  after: string[];
  weather: boolean;
  wait: boolean;
  hold: boolean;
  gang: number | null;
  total_float_min: number;
  free_float_min: number;
  late_finish: string;
  critical: boolean;
  held_by: HeldBy;
  pinned_on: string | null;
  done_percent: number;
  working: Working;
}

export interface TaskOnSite {
  key: string;
  words: string;
  on: string | null;
  planned_h: number;
  low_h: number;
  high_h: number;
  done_percent: number;
}

export interface TaxShare {
  taxed: Taxed;
  net_minor: number;
  tax_minor: number;
}

export interface Taxed {
  regime: "standard" | "reduced" | "zero" | "none" | "reverse_charge";
  percent: number | null;
  figure: Figure | null;
}

export interface ToolErrors {
  tape: "class_i" | "class_ii" | "class_iii" | null;
  tape_read_sd_mm: number;
  tape_fixed_mm: number;
  tape_per_m_mm: number;
  tape_length_mm: number;
  square: "tape_triangle" | "builders_square" | "laser_square";
  square_sd_deg: number | null;
  level: 
    | "optical_level"
    | "rotating_laser"
    | "water_level"
    | "spirit_level"
    | null;
  level_sd_mm: number;
  mark_sd_mm: number;
  string_kg_per_km: number;
  string_pull_kg: number;
  assumed: AssumedTool[];
}

export interface TopsoilAllowance {
  area: string;
  depth_mm: Spread;
  dig_m3: Spread;
  fill_m3: Spread;
  figure: Figure;
  working: Working;
}

export interface TriangulatedSurface {
  points: [number, number, number][];
  triangles: [number, number, number][];
  gapped: boolean;
}

export interface Trust {
  mark_sd_px: number;
  flat_sd_mm: number;
  lens_sd: [number, number];
  lens_usual: number;
  lens_usual_sd: number;
}

export interface UnderSteps {
  steps: string;
  shape: Shape;
}

export interface UnitChecked {
  piece: number;
  at: [number, number];
  state: "laid" | "to_re_bed";
  over_mm: (number | null)[];
  sd_mm: number;
  advice: Advice | null;
}

export interface UnitCount {
  unit: string;
  whole: number;
  cut: number;
  units_each_cut_new: number;
  units_with_offcuts: number;
  min_units: number;
  units_bound: number;
  units_more_edges: number;
  kg_each: number;
  left_overs_m2: number;
  workings: Working[];
}

export interface UnitToLay {
  piece: number;
  course: number;
  unit: string;
  cut: boolean;
  corners: [number, number][];
  wanted_mm: number[];
  area_m2: number;
}

export interface UnplacedPoint {
  name: string;
  missing: number;
}

export interface VisitMoved {
  date: string;
  days: number;
  datum: Datum;
  together: Moved;
  places: PlaceMoved[];
  bays: BayMoved[];
  verdict: "moved" | "not_seen" | "unknown";
}

export interface WallCheck {
  wall: string;
  min_mm: number;
  wanted_mm: number;
  readings: number;
  verdict: "pass" | "fail" | "unsure";
  tolerance_mm: number;
  tolerance: Figure;
}

export interface WallClearance {
  wall: string;
  start: [number, number];
  end: [number, number];
  at_start_mm: number;
  at_end_mm: number;
  working: Working;
}

export interface WallStretch {
  area: string;
  wall: string;
  start: [number, number];
  end: [number, number];
  clear_at_start_mm: number;
  clear_at_end_mm: number;
  promised_mm: number;
  tolerance_mm: number;
}

export interface Water {
  rain: Figure;
  runoff: Figure;
  catchments: Catchment[];
  total_l_s: number;
  findings: Finding[];
  limits: string[];
  soakaways: SoakawayCheck[];
  drains: DrainCheck[];
  storm: SheetStorm | null;
  pits: SoakawayParts[];
  inlets: DrainParts[];
  shares: InletShare[];
  runs: DrainRun[];
}

export interface WaterAsked {
  standing: StandingOnSite[];
  judged: AreaJudged[];
}

export interface Work {
  tools: ToolErrors;
  steps: WorkStep[];
  lost: ComesBack[];
  not_back: string[];
  hung: StringHung[];
  crossings: Crossing[];
  stray: StrayReading[];
  sights: SightHeight[];
  curves: CurveSetOut[];
  height_limit_mm: number;
  peg_found_mm: number;
}

export interface WorkGang {
  name: string;
  people: number;
  skills: 
    | ("layer"
    | "groundworker"
    | "labourer"
    | "driver"
    | "drainage"
    | "any")[];
}

export interface WorkLayer {
  course: 
    | "unit"
    | "bed"
    | "base"
    | "sub_base"
    | "capping"
    | "geotextile";
  number: number;
  of: number;
  thickness_mm: number;
  share: number;
}

export interface WorkStep {
  number: number;
  area: string;
  place: string;
  at: [number, number];
  fixed_by: "base" | "two_tapes" | "square";
  stations: [string, string];
  stations_at: [[number, number], [number, number]];
  tapes_mm: number[];
  cut_deg: number | null;
  error: ExpectedError;
  checks: StepCheck[];
  finds_mm: number | null;
}

export interface Working {
  expression: string;
  result: number;
  unit: string;
  figures: Figure[];
  note: string;
}

export interface ZoneDig {
  zone: string;
  cut_m3: number;
  fill_m3: number;
  dig_m2: number;
}

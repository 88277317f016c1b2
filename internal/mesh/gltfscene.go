package mesh

import "math"

// placed is a node with the transform of all it is in.
type placed struct {
	node gltfInt
	at   *transform
}

// scene puts every mesh of the scene where its nodes take it. A node is
// visited once: the specification allows it one parent.
func (g *gltf) scene() error {
	queue := g.roots()
	seen := make([]bool, len(g.doc.Nodes))
	meshes := 0
	for len(queue) > 0 {
		p := queue[len(queue)-1]
		queue = queue[:len(queue)-1]
		if p.node < 0 || int(p.node) >= len(seen) {
			g.build.report.harm("A node that does not exist was left out.")
			continue
		}
		if seen[p.node] {
			g.build.report.harm("A node within itself, or within two others, was left out.")
			continue
		}
		seen[p.node] = true
		node := &g.doc.Nodes[p.node]
		at := p.at.after(g.placeOf(node))
		if node.Mesh != nil {
			meshes++
			if err := g.mesh(*node.Mesh, at); err != nil {
				return err
			}
		}
		for i := len(node.Children) - 1; i >= 0; i-- {
			queue = append(queue, placed{node.Children[i], at})
		}
	}
	if meshes == 0 && len(g.doc.Meshes) > 0 {
		g.build.report.harm("No scene has the meshes in it; all were taken as they are modelled.")
		for meshes = range g.doc.Meshes {
			if err := g.mesh(gltfInt(meshes), &still); err != nil {
				return err
			}
		}
		meshes++
	}
	g.build.report.Bodies = meshes
	return nil
}

// roots are the nodes of the scene to be shown, the last one first.
func (g *gltf) roots() (queue []placed) {
	var nodes []gltfInt
	scene := 0
	if g.doc.Scene != nil {
		scene = int(*g.doc.Scene)
	}
	if scene >= 0 && scene < len(g.doc.Scenes) {
		nodes = g.doc.Scenes[scene].Nodes
	} else {
		nodes = g.orphans()
	}
	for i := len(nodes) - 1; i >= 0; i-- {
		queue = append(queue, placed{nodes[i], &still})
	}
	return queue
}

// orphans are the nodes that are in no other.
func (g *gltf) orphans() (nodes []gltfInt) {
	child := make(map[gltfInt]bool)
	for _, n := range g.doc.Nodes {
		for _, c := range n.Children {
			child[c] = true
		}
	}
	for i := range g.doc.Nodes {
		if !child[gltfInt(i)] {
			nodes = append(nodes, gltfInt(i))
		}
	}
	return nodes
}

// placeOf is the node's own transform: a matrix by columns, or a translation,
// a rotation and a scale.
func (g *gltf) placeOf(n *gltfNode) *transform {
	if n.Skin != nil {
		g.build.report.harm("The form has a skeleton; it was read as it is modelled, not as it is posed.")
	}
	if _, ok := n.Extensions["EXT_mesh_gpu_instancing"]; ok {
		g.build.report.harm("A mesh is repeated by EXT_mesh_gpu_instancing; it was taken once.")
	}
	if m := n.Matrix; len(m) == 16 {
		return &transform{{m[0], m[4], m[8], m[12]}, {m[1], m[5], m[9], m[13]}, {m[2], m[6], m[10], m[14]}}
	}
	translation, turn, stretch := [3]float64{}, [4]float64{0, 0, 0, 1}, [3]float64{1, 1, 1}
	if len(n.Translation) == 3 {
		translation = [3]float64(n.Translation)
	}
	if len(n.Rotation) == 4 {
		turn = [4]float64(n.Rotation)
	}
	if len(n.Scale) == 3 {
		stretch = [3]float64(n.Scale)
	}
	return place(translation, turn, stretch)
}

// The kinds of primitives that have a surface.
const (
	gltfTriangles = 4
	gltfStrip     = 5
	gltfFan       = 6
)

// mesh adds a mesh where at takes it. Primitives in a row that share their
// points are one part, as long as it is not too large.
func (g *gltf) mesh(i gltfInt, at *transform) error {
	if i < 0 || int(i) >= len(g.doc.Meshes) {
		g.build.report.harm("A mesh that does not exist was left out.")
		return nil
	}
	const large = 1 << 20
	var p part
	of := gltfInt(math.MinInt64) // whose points p has: no accessor yet
	for k := range g.doc.Meshes[i].Primitives {
		q := &g.doc.Meshes[i].Primitives[k]
		points, ok := q.Attributes["POSITION"]
		if !ok || q.mode() < gltfTriangles {
			g.build.report.note("Loose points and lines were passed over.")
			continue
		}
		if err := g.squeezed(q, points); err != nil {
			return err
		}
		if points != of || len(p.triangles) > large {
			if err := g.build.add(&p, at); err != nil {
				return err
			}
			p, of = part{points: g.points(points), once: true}, points
		}
		g.faces(q, &p)
	}
	return g.build.add(&p, at)
}

func (q *gltfPrimitive) mode() gltfInt {
	if q.Mode == nil {
		return gltfTriangles
	}
	return *q.Mode
}

// squeezed refuses a primitive whose points are only there compressed.
func (g *gltf) squeezed(q *gltfPrimitive, points gltfInt) error {
	if _, ok := q.Extensions[draco]; !ok {
		return nil
	}
	if a := g.accessor(points); a != nil && a.BufferView != nil {
		return nil
	}
	return g.compressed(draco)
}

// faces adds the triangles of a primitive to the part that has its points.
func (g *gltf) faces(q *gltfPrimitive, p *part) {
	if len(q.Targets) > 0 {
		g.build.report.note("The form has shapes to change into; it was read as it is modelled.")
	}
	var corners []uint32
	if q.Indices == nil {
		corners = make([]uint32, len(p.points))
		for i := range corners {
			corners[i] = uint32(i)
		}
	} else {
		corners = g.indices(*q.Indices)
	}
	switch q.mode() {
	case gltfTriangles:
		if p.triangles == nil {
			p.triangles = make([][3]uint32, 0, len(corners)/3)
		}
		for ; len(corners) >= 3; corners = corners[3:] {
			p.triangles = append(p.triangles, [3]uint32(corners))
		}
		if len(corners) > 0 {
			g.build.report.harm("A list of triangles ends in the middle of one.")
		}
	case gltfStrip:
		p.strip(corners)
	case gltfFan:
		for i := 2; i < len(corners); i++ {
			p.triangles = append(p.triangles, [3]uint32{corners[0], corners[i-1], corners[i]})
		}
	default:
		g.build.report.harm("Faces of an unknown kind were left out.")
	}
}

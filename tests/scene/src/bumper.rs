//! The bumper: a face bent in plan and leaning, on which cards lie as paper
//! does, without stretching.

use nalgebra::{Vector2, Vector3};

/// Spacing of the table of the curve, mm.
const STEP: f64 = 1.0;

/// What a bumper looks like. Millimetres and degrees.
#[derive(Clone, Copy, Debug)]
pub struct Shape {
    /// Radius of curvature in plan at the centre line.
    pub mid_radius: f64,
    /// The same at both ends, tighter.
    pub end_radius: f64,
    /// Half the length along the face.
    pub half: f64,
    /// How far the face leans: + faces up.
    pub rake: f64,
    /// Height of its line of marks above the ground.
    pub height: f64,
}

/// A bumper of a shape. Its face is a general cylinder: a plan curve moved
/// along one straight direction, so that paper lies on it exactly and
/// lengths on the paper are lengths along the face.
#[derive(Clone, Debug)]
pub struct Bumper {
    shape: Shape,
    /// Straight, forward and turn at each step along the face, from -half.
    table: Vec<(f64, f64, f64)>,
    up: Vector3<f64>,
    forward: Vector3<f64>,
}

impl Bumper {
    /// The bumper of a shape.
    #[must_use]
    pub fn new(shape: Shape) -> Self {
        let bend = |s: f64| {
            let share = (s.abs() / shape.half).powi(4);
            1.0 / shape.mid_radius + share * (1.0 / shape.end_radius - 1.0 / shape.mid_radius)
        };
        // Outward from the centre line, in small steps.
        const FINE: usize = 50;
        let count = (shape.half / STEP).ceil() as usize + 200;
        let mut right = vec![(0.0, 0.0, 0.0)];
        let (mut x, mut y, mut turn) = (0.0f64, 0.0f64, 0.0f64);
        for n in 0..count * FINE {
            let ds = STEP / FINE as f64;
            let middle = (n as f64 + 0.5) * ds;
            let half_way = turn + bend(n as f64 * ds) * ds / 2.0;
            x += half_way.cos() * ds;
            y += half_way.sin() * ds;
            turn += bend(middle) * ds;
            if (n + 1) % FINE == 0 {
                right.push((x, y, turn));
            }
        }
        let left = right
            .iter()
            .skip(1)
            .rev()
            .map(|(x, y, turn)| (-x, *y, -turn));
        let table = left.chain(right.iter().copied()).collect();
        let (sin, cos) = shape.rake.to_radians().sin_cos();
        Self {
            shape,
            table,
            up: Vector3::new(0.0, sin, cos),
            forward: Vector3::new(0.0, cos, -sin),
        }
    }

    /// The plan curve: straight and forward, mm, and turn, radian. Between
    /// the steps by Hermite's cubic.
    fn plan(&self, along: f64) -> (Vector2<f64>, f64) {
        let middle = (self.table.len() / 2) as f64;
        let place = (along / STEP + middle).clamp(0.0, (self.table.len() - 2) as f64);
        let n = place as usize;
        let t = place - n as f64;
        let ((x0, y0, a0), (x1, y1, a1)) = (self.table[n], self.table[n + 1]);
        let (p0, p1) = (Vector2::new(x0, y0), Vector2::new(x1, y1));
        let way = |a: f64| Vector2::new(a.cos(), a.sin()) * STEP;
        let (m0, m1) = (way(a0), way(a1));
        let (t2, t3) = (t * t, t * t * t);
        let point = p0 * (2.0 * t3 - 3.0 * t2 + 1.0)
            + m0 * (t3 - 2.0 * t2 + t)
            + p1 * (3.0 * t2 - 2.0 * t3)
            + m1 * (t3 - t2);
        (point, a0 + (a1 - a0) * t)
    }

    fn origin(&self) -> Vector3<f64> {
        Vector3::new(0.0, 0.0, self.shape.height)
    }

    /// The place so far along the face from the centre line and so far up
    /// it from the line of marks; vehicle frame, mm.
    #[must_use]
    pub fn at(&self, along: f64, up: f64) -> Vector3<f64> {
        let (plan, _) = self.plan(along);
        self.origin() + Vector3::x() * plan.x + self.forward * plan.y + self.up * up
    }

    /// The face's outward normal there.
    #[must_use]
    pub fn normal(&self, along: f64) -> Vector3<f64> {
        let (_, turn) = self.plan(along);
        Vector3::x() * turn.sin() - self.forward * turn.cos()
    }

    /// Where a ray meets the face, along and up, looked for from `near`.
    #[must_use]
    pub fn hit(&self, from: Vector3<f64>, way: Vector3<f64>, near: f64) -> Option<(f64, f64)> {
        let from = from - self.origin();
        let (fx, fy) = (from.x, from.dot(&self.forward));
        let (wx, wy) = (way.x, way.dot(&self.forward));
        let mut along = near;
        for _ in 0..8 {
            let (plan, turn) = self.plan(along);
            let off = (plan.x - fx) * wy - (plan.y - fy) * wx;
            let slope = turn.cos() * wy - turn.sin() * wx;
            if slope.abs() < 1e-9 {
                return None;
            }
            let step = off / slope;
            along -= step.clamp(-60.0, 60.0);
            if step.abs() < 1e-6 {
                break;
            }
        }
        let (plan, _) = self.plan(along);
        let far = ((plan.x - fx) * wx + (plan.y - fy) * wy) / (wx * wx + wy * wy);
        let up = from.dot(&self.up) + far * way.dot(&self.up);
        (far > 0.0 && self.normal(along).dot(&way) < 0.0).then_some((along, up))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn paper_does_not_stretch_and_a_ray_finds_its_place() {
        let bumper = Bumper::new(Shape {
            mid_radius: 2_000.0,
            end_radius: 350.0,
            half: 850.0,
            rake: -6.0,
            height: 520.0,
        });
        let eye = Vector3::new(300.0, -2_000.0, 1_200.0);
        for (along, up) in [(-600.3, 20.0), (0.4, -35.0), (450.7, 10.0)] {
            let point = bumper.at(along, up);
            let near = bumper.at(along + 0.01, up);
            assert!(((near - point).norm() - 0.01).abs() < 1e-6);
            let (a, u) = bumper.hit(eye, point - eye, along + 30.0).unwrap();
            assert!((a - along).abs() < 1e-6 && (u - up).abs() < 1e-6);
        }
        let (one, other) = (bumper.at(-500.0, 0.0), bumper.at(500.0, 0.0));
        assert!((one.x + other.x).abs() < 1e-9 && (one.y - other.y).abs() < 1e-9);
        assert!(
            bumper.at(0.0, 100.0).y < 0.0,
            "a face that faces down leans out upward"
        );
    }
}
